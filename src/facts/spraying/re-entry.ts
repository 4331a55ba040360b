import type { IsoDate } from '../../records/date.ts'
import type { Product } from '../../records/product.ts'
import { spokenTime } from '../../records/spoken-date.ts'
import type { Spray } from '../../records/spray.ts'
import { instantOf, wallClock } from '../../records/zone.ts'
import { type Clearance, sayCleared } from './clearance.ts'
import { endMinutes } from './spray-end.ts'

/**
 * Hours within which a deposit is taken to dry where the label names no time. A cautious default: common practice,
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
  /** The product that decides. */
  by: string
  /** Hours that its label names; null where it says `until dry`. */
  hours: number | null
  /** The clearance that decides instead of the label, after a spray that was over it. */
  cleared?: Clearance
}

/**
 * When people may enter again: the longest of the products in the tank, from the end of spraying (40 CFR 170.112, 2007
 * text), in elapsed hours across clock changes. `until dry` has no hours: the end of the day of spraying is taken, or
 * the usual drying time where that is later. Null where no label says anything.
 * @param end minutes after midnight at which spraying ended; as written, else the end of the day
 */
export function reEntryEnd(
  spray: Pick<Spray, 'date' | 'time'>,
  products: readonly Labelled[],
  { zone, end = endMinutes(spray) }: { zone: string; end?: number },
): ReEntryEnd | null {
  const ended = instantOf(spray.date, end, zone)
  const dayEnd = instantOf(spray.date, Math.max(1440, Math.ceil(end / 1440) * 1440), zone)
  // Without a clock time the end of the day stands for the end of spraying, and nothing is added to it.
  const dry = end % 1440 === 0 ? dayEnd : Math.max(dayEnd, ended + DRYING_HOURS * 3_600_000)
  let last: Pick<ReEntryEnd, 'instant' | 'by' | 'hours'> | null = null
  for (const { id, re_entry: wait } of products) {
    if (wait === undefined) continue
    const hours = wait === 'until dry' ? null : wait
    const instant = hours === null ? dry : ended + hours * 3_600_000
    if (!last || instant > last.instant) last = { instant, by: id, hours }
  }
  return last && { ...last, ...wallClock(last.instant, zone) }
}

/** Ids of products whose record says nothing of re-entry. */
export const withoutReEntry = (products: readonly Labelled[]): string[] => [
  ...new Set(products.filter(({ re_entry }) => re_entry === undefined).map(({ id }) => id)),
]

/** Why nobody may enter until an end: `re-entry interval, REI, of sulphur-80: 24 h`, or `as cleared by …`. */
export const whyKeptOut = ({ by, hours, cleared }: Pick<ReEntryEnd, 'by' | 'hours' | 'cleared'>): string =>
  cleared ? sayCleared(cleared) : `re-entry interval, REI, of ${by}: ${sayReEntry(hours)}`

/**
 * Until when people are kept out: `Mon 15 Jun 20:05`, or `the spray is dry, at the earliest the end of Sun 14 Jun`
 * where the label names no time.
 */
export const sayUntil = (end: Pick<ReEntryEnd, 'date' | 'minutes' | 'hours' | 'cleared'>): string =>
  `${end.hours === null && !end.cleared ? 'the spray is dry, at the earliest ' : ''}${spokenTime(end.date, end.minutes)}`

/** `(re-entry interval, REI: 24 h)`, behind such a time. */
export const inBrackets = ({ hours }: Pick<ReEntryEnd, 'hours'>): string =>
  `(re-entry interval, REI${hours === null ? '' : `: ${hours} h`})`

/** How a label words its re-entry interval: `24 h`, or `until dry`. */
export const sayReEntry = (hours: number | null): string => (hours === null ? 'until dry' : `${hours} h`)
