import { longestPowderyInterval, type PowderyProductClass } from '../../agronomy/disease/powdery-interval.ts'
import type { Disease } from '../../records/disease.ts'
import type { Product } from '../../records/kinds/product.ts'
import type { NotedStage } from '../danger/growth.ts'

/**
 * Growth stages of rapid shoot growth, and the days of it after which too much leaf is new and unsprayed. Common
 * practice, no source.
 */
const RAPID_GROWTH = { from: 13, to: 71, days: 10 } as const

/**
 * Top of the moderate band, below the one for which some products are not advised: Gubler et al. 1999, as `pressure`
 * cites it.
 */
const HIGHEST_MODERATE = 50

/** Days for which protection is followed after a spray: longer than on any label. Our own choice. */
const LONGEST = 60

/** A product's column in the interval table; null where it has none. */
function productClass({ actives, kind, nature }: Product): PowderyProductClass | null {
  const groups = actives.map(({ group }) => group ?? '')
  if (groups.includes('M02') || actives.some(({ name }) => /sulph?ur|sulf/i.test(name))) return 'sulphur'
  if (groups.includes('3')) return 'dmi'
  if (groups.includes('11')) return 'strobilurin'
  const gentle = groups.some((group) => group === 'NC' || group.startsWith('BM') || group.startsWith('P'))
  return gentle || kind === 'biological' || nature === 'biological' ? 'biological' : null
}

/**
 * Days of the label's interval against a disease: its long end, and the short end where more is at stake; null where
 * the label gives none. Where the label says how long the product protects, that counts. Botrytis sprays are timed by
 * stage, so no interval is shortened for it.
 */
function labelInterval(product: Product, disease: Disease): { long: number; short: number } | null {
  const interval = product.uses.find(({ against }) => against === disease)?.interval
  if (!interval) return null
  const isCut = product.protects === undefined && disease !== 'botrytis'
  return { long: interval.high, short: isCut ? interval.low : interval.high }
}

/**
 * Days until the interval is over: the label's or the table's for the highest index since the spray, whichever is
 * shorter. The label's short end counts once a day since the spray lay in the critical period or in high danger
 * (`isGrave`), else the long one (common practice, no source). `indexOn` gives the powdery index of a day number; an
 * unknown day (null) shortens nothing. Where the table advises no product of the class at that index, the days of the
 * band below count, so that a higher index never lengthens an interval, and `notAdvised` says from when.
 */
export function intervalDays(
  product: Product,
  disease: Disease,
  from: {
    sprayed: number
    indexOn: (day: number) => number | null
    isGrave: (day: number) => boolean
  },
): { days: number | null; notAdvised: number | null } {
  const label = labelInterval(product, disease)
  const column = disease === 'powdery' ? productClass(product) : null
  if (column === null && (label === null || label.short === label.long))
    return { days: label?.long ?? null, notAdvised: null }
  let highest = 0
  let isCut = false
  let notAdvised: number | null = null
  for (let days = 0; days <= LONGEST; days++) {
    const day = from.sprayed + days
    highest = Math.max(highest, from.indexOn(day) ?? 0)
    isCut ||= label !== null && label.short < label.long && from.isGrave(day)
    const table = column && longestPowderyInterval(highest, column)
    if (column && table === null) notAdvised ??= days
    const longest = table ?? (column && longestPowderyInterval(HIGHEST_MODERATE, column)) ?? Infinity
    const limit = Math.min((isCut ? label?.short : label?.long) ?? Infinity, longest)
    // A later rise shortens only what is left of the interval.
    if (days >= limit) return { days: limit > days - 1 ? limit : days, notAdvised }
  }
  return { days: label?.long ?? null, notAdvised }
}

/** Days after a spray at which rapid growth has outgrown a contact deposit; null where it doesn't. */
export function growthDays(stages: readonly NotedStage[], sprayed: number): number | null {
  if (stages.length === 0) return null
  let rapid = 0
  for (let days = 1; days <= LONGEST; days++) {
    const stage = stages.findLast(({ day }) => day <= sprayed + days)?.stage
    if (stage !== undefined && stage >= RAPID_GROWTH.from && stage < RAPID_GROWTH.to) rapid++
    if (rapid >= RAPID_GROWTH.days) return days
  }
  return null
}
