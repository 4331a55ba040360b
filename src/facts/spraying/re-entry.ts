import type { Ledger, Named, SprayEntry } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Product } from '../../records/kinds/product.ts'
import type { Spray } from '../../records/kinds/spray.ts'
import { spokenDate, spokenTime } from '../../records/spoken-date.ts'
import { instantOf, wallClock } from '../../records/zone.ts'
import { productNames } from '../names.ts'
import type { ReportInput } from '../report.ts'
import { type Clearance, clearanceOf, clearedText } from './clearance.ts'
import { type OverLabel, overLabelOf, overLabelSentence } from './over-label.ts'
import { endMinutes } from './spray-end.ts'

/**
 * Hours for a deposit to dry where the label gives no time. A cautious default: common practice,
 * no source (what was read asks only that every product dries before rain; Missouri Grape and Wine Institute 2019).
 */
export const DRYING_HOURS = 2

type Labelled = Pick<Product, 're_entry'> & { id: string }

/** The end of the re-entry interval (REI) of a tank. */
export interface ReEntryEnd {
  instant: number
  date: IsoDate
  minutes: number
  iso: string
  /** The deciding product. */
  by: string
  /** Hours on its label; null where it says `until dry`. */
  hours: number | null
  /** The clearance that replaces the label, after a spray over it. */
  cleared?: Clearance
}

/**
 * When people may enter again: the longest interval of the products in the tank, from the end of spraying (40 CFR
 * 170.112, 2007 text), in elapsed hours across clock changes. `until dry` has no hours: it ends with the day of
 * spraying, or after the usual drying time where that is later. Null where no label gives an interval.
 * @param end minutes after midnight when spraying ended; as written, else the end of the day
 */
export function reEntryEnd(
  spray: Pick<Spray, 'date' | 'time'>,
  products: readonly Labelled[],
  { zone, end = endMinutes(spray) }: { zone: string; end?: number },
): ReEntryEnd | null {
  const ended = instantOf(spray.date, end, zone)
  const dry = () => {
    const dayEnd = instantOf(spray.date, Math.max(1440, Math.ceil(end / 1440) * 1440), zone)
    // Without a clock time, spraying counts as ended at the end of the day, and no drying time is added.
    return end % 1440 === 0 ? dayEnd : Math.max(dayEnd, ended + DRYING_HOURS * 3_600_000)
  }
  let last: Pick<ReEntryEnd, 'instant' | 'by' | 'hours'> | null = null
  for (const { id, re_entry: wait } of products) {
    if (wait === undefined) continue
    const hours = wait === 'until dry' ? null : wait
    const instant = hours === null ? dry() : ended + hours * 3_600_000
    if (!last || instant > last.instant) last = { instant, by: id, hours }
  }
  return last && { ...last, ...wallClock(last.instant, zone) }
}

/** Ids of products whose record gives no re-entry interval. */
export const withoutReEntry = (products: readonly Labelled[]): string[] => [
  ...new Set(products.filter(({ re_entry }) => re_entry === undefined).map(({ id }) => id)),
]

/** Why nobody may enter until an end: `re-entry interval, REI, of sulphur-80: 24 h`, or `as cleared by …`. */
export const whyKeptOut = ({ by, hours, cleared }: Pick<ReEntryEnd, 'by' | 'hours' | 'cleared'>): string =>
  cleared ? clearedText(cleared) : `re-entry interval, REI, of ${by}: ${reEntryHoursText(hours)}`

/**
 * Until when people must stay out: `Mon 15 Jun 20:05`, or `the spray is dry, at the earliest the end of Sun 14 Jun`
 * where the label gives no time.
 */
export const untilText = (end: Pick<ReEntryEnd, 'date' | 'minutes' | 'hours' | 'cleared'>): string =>
  `${end.hours === null && !end.cleared ? 'the spray is dry, at the earliest ' : ''}${spokenTime(end.date, end.minutes)}`

/** `(re-entry interval, REI: 24 h)`, to follow that time. */
export const inBrackets = ({ hours }: Pick<ReEntryEnd, 'hours'>): string =>
  `(re-entry interval, REI${hours === null ? '' : `: ${hours} h`})`

/** How a label words its re-entry interval: `24 h`, or `until dry`. */
export const reEntryHoursText = (hours: number | null): string =>
  hours === null ? 'until dry' : `${hours} h`

/** Until when nobody may enter after a spray. */
export interface KeepOut {
  /** The end of the longest interval; null where no product gives one, or a use over the label isn't cleared. */
  over: ReEntryEnd | null
  /** Products whose record gives no re-entry interval. */
  unknown: string[]
  /** Uses over the label that nobody cleared: the label's interval doesn't hold, and no end is known. */
  overLabel: OverLabel[]
}

/** The longest re-entry interval of what was in the tank, from the end of spraying. */
export function keepOutOf(ledger: Ledger, spray: SprayEntry): KeepOut {
  const ids = [...new Set(spray.products.map(({ product }) => product))]
  const products = ids.map((id) => ledger.products.get(id) ?? { id, re_entry: undefined })
  const zone = ledger.vineyard.timezone
  const overLabel = overLabelOf(ledger, spray)
  const unknown = withoutReEntry(products)
  const byLabel = reEntryEnd(spray, products, { zone })
  if (overLabel.length === 0) return { over: byLabel, unknown, overLabel }
  const clearance = clearanceOf(spray)
  if (!clearance) return { over: null, unknown, overLabel }
  return { over: asCleared(byLabel, clearance, zone), unknown: [], overLabel: [] }
}

/** The cleared day, but never before the label's own interval is over. */
function asCleared(byLabel: ReEntryEnd | null, cleared: Clearance, zone: string): ReEntryEnd {
  const instant = instantOf(cleared.enterFrom, 0, zone)
  if (byLabel && byLabel.instant > instant) return { ...byLabel, cleared }
  return { instant, ...wallClock(instant, zone), by: cleared.by, hours: null, cleared }
}

/** Days after a spray for which an unknown re-entry interval is still reported. Our own choice. */
const DOUBT_DAYS = 4

/** Whether a spray's unknown re-entry interval is still reported on a morning. */
export const isInDoubt = (sprayed: IsoDate, morning: number, zone: string): boolean =>
  instantOf(sprayed, 0, zone) + DOUBT_DAYS * 86_400_000 > morning

/** Why nobody may enter a block at some hour of the day, in sentences; none where nothing recorded forbids it. */
export function enteringStops(
  { ledger, asOf, season }: Omit<ReportInput, 'blocks'>,
  block: Named<Block>,
): string[] {
  const zone = ledger.vineyard.timezone
  const morning = instantOf(asOf, 0, zone)
  const stops = ledger.sprays.flatMap((spray) => {
    if (!spray.blocks.includes(block.id) || spray.date > asOf) return []
    const { over, unknown, overLabel } = keepOutOf(ledger, spray)
    return [
      over && over.instant > morning && `Keep out until ${untilText(over)} (re-entry interval, REI).`,
      overLabel.length > 0 &&
        spray.season === season &&
        `Sprayed ${spokenDate(spray.date)}: ${overLabelSentence(overLabel)}`,
      unknown.length > 0 &&
        isInDoubt(spray.date, morning, zone) &&
        `Keep out until you have read the label of ${productNames(ledger, unknown)}: no re-entry interval recorded.`,
    ]
  })
  return [...new Set(stops.filter((stop) => typeof stop === 'string'))]
}

/** What to do where a block was sprayed over the label and nobody cleared it, before any other spray. */
export const ASK_FIRST =
  'No spray: this block was sprayed over the label. Ask your adviser or the authority first.'

/** How to record a clearance for a spray over the label. */
export const HOW_TO_CLEAR =
  'write into the spray, once you are told: cleared: { on: DATE, by: NAME, pick_from: DATE }'

/** Whether a spray of the season was over the label in a block, and nobody has cleared it. */
export const standsOverLabel = (
  { ledger, season, asOf }: Pick<ReportInput, 'ledger' | 'season' | 'asOf'>,
  block: string,
): boolean =>
  ledger.sprays.some(
    (spray) =>
      spray.season === season &&
      spray.date <= asOf &&
      spray.blocks.includes(block) &&
      !spray.cleared &&
      overLabelOf(ledger, spray).length > 0,
  )
