import type { z } from 'zod'
import { type Disease, USUAL_DISEASES } from '../disease.ts'
import { type About, schemaUnder, shapeOf } from '../fields/shape.ts'
import { type DayOrder, dayOrderOf, readTypedDate } from './typed-date.ts'

type Units = 'metric' | 'us' | 'imperial'

/** What a site decides about typed text: the order of day and month, the gallon, and which diseases `clean` covers. */
export interface SiteWay {
  order: DayOrder
  units: Units
  /** The diseases covered by `clean`. */
  diseases: readonly Disease[]
}

/** What `vineyard.yaml` decides. */
export const siteWay = ({
  timezone,
  units = 'metric',
  diseases = USUAL_DISEASES,
}: {
  timezone?: string | undefined
  units?: Units | undefined
  diseases?: readonly Disease[] | undefined
}): SiteWay => ({ order: timezone === undefined ? null : dayOrderOf(timezone), units, diseases })

/** Units whose size depends on the country, and dates that don't start with the year. */
const UNIT =
  /(?<![a-z-])(?:(US|imp)\s{1,9})?(fl\.? ?oz|gal(?:lon)?s?|p(?:in)?ts?|q(?:uar)?ts?|tons?|ac)(?![\w-])/gi
const DATE = /(?<![\d-])\d{1,2}[-./]\d{1,2}[-./](?:\d{4}|\d{2})(?!\d)/

/** Words for a scouting round that found nothing. */
const CLEAN_WORDS = 'clean|none|nothing|0|all clean|no disease|nothing found|zero'
export const CLEAN = new RegExp(`^(?:${CLEAN_WORDS})$`, 'i')
const CLEAN_VALUE = new RegExp(`:\\s{0,9}["']?(?:${CLEAN_WORDS})\\b`, 'i')

/** Whether something in a text may depend on the site. */
export const dependsOnSite = (text: string): boolean =>
  DATE.test(text) || text.search(UNIT) >= 0 || (text.includes('found') && CLEAN_VALUE.test(text))

/** Units whose size depends on the country, by their first letters. */
const CUSTOMARY = ['fl oz', 'gal', 'pt', 'qt', 'ton']

/** A quantity with the site's units spelled out: `25 gal/ac` becomes `25 US gal/acre` where `units` is us. */
export function inSiteUnits(text: string, units: Units): string {
  if (units === 'metric') return text
  return text.replace(UNIT, (whole, system: string | undefined, name: string) => {
    const word = name.toLowerCase()
    if (word === 'ac') return system === undefined ? 'acre' : whole
    const core = CUSTOMARY.find((unit) => unit[0] === word[0])!
    // Ledgers have no imperial quart or ton.
    if (system !== undefined || (units === 'imperial' && (core === 'qt' || core === 'ton'))) return whole
    return `${units === 'us' ? 'US' : 'imp'} ${core}`
  })
}

/**
 * The value of an entry in forms that don't depend on the site: dates by year, month and
 * day, units with their system, a clean round as counts. Other values stay unchanged.
 */
export function asSiteMeans(schema: z.ZodType, value: unknown, way: SiteWay): unknown {
  const shape = shapeOf(schema)
  if (Array.isArray(value))
    return 'item' in shape ? value.map((one) => asSiteMeans(shape.item, one, way)) : value
  if (typeof value === 'string') {
    if (shape.kind === 'one-or-more') return asSiteMeans(shape.item, value, way)
    return shape.kind === 'value' ? leaf(value, shape.about, way) : value
  }
  if (typeof value !== 'object' || value === null) return value
  const isRound = shape.kind === 'map' && Object.hasOwn(shape.keys, 'looked_at')
  const full = isRound ? foundInFull(value as Record<string, unknown>, way.diseases) : value
  return Object.fromEntries(
    Object.entries(full).map(([key, one]) => {
      const below = schemaUnder(schema, key)
      return [key, below ? asSiteMeans(below, one, way) : one]
    }),
  )
}

function leaf(text: string, about: About, { order, units }: SiteWay): string {
  if (about.format === 'date')
    return DATE.test(text) ? (readTypedDate(text, { today: null, order }).date ?? text) : text
  return about.keeps ? inSiteUnits(text, units) : text
}

/**
 * A scouting round with `found: clean` and `powdery: clean` written out as counts of zero on what was looked at.
 * @param diseases those judged at the site, which a grower looks for
 */
function foundInFull(entry: Record<string, unknown>, diseases: readonly Disease[]): Record<string, unknown> {
  const { looked_at: looked, found } = entry
  if (typeof looked !== 'object' || looked === null) return entry
  const none = () => Object.fromEntries(Object.keys(looked).map((organ) => [organ, 0]))
  if (isClean(found))
    return { ...entry, found: Object.fromEntries(diseases.map((disease) => [disease, none()])) }
  if (typeof found !== 'object' || found === null || !Object.values(found).some(isClean)) return entry
  const full = Object.entries(found).map(([disease, one]) => [disease, isClean(one) ? none() : one])
  return { ...entry, found: Object.fromEntries(full) }
}

const isClean = (value: unknown) => (typeof value === 'string' || value === 0) && CLEAN.test(String(value))
