import type { Ledger, SeasonRecords, SprayEntry } from '../ledger/read/ledger.ts'
import type { IsoDate } from '../records/date.ts'
import type { SeasonKind } from '../records/kinds.ts'
import { type Application, applicationsOf } from './spraying/applications.ts'

/** Entries of a kind that may get findings: of the seasons judged, and not dated after the day of looking. */
export function judged<K extends SeasonKind>({ ledger, asOf, seasons }: Book, kind: K): SeasonRecords[K] {
  return ledger[kind].filter((entry) => seasons.has(entry.season) && entry.date <= asOf) as SeasonRecords[K]
}

/**
 * Looks up the entries of a block in a season, up to the day of looking and in their order. Made once, so that a rule
 * that asks for each of its own entries takes time as they grow, not as their square.
 */
export function inSeason<T extends { block: string; season: number; date: string }>(
  { asOf }: Book,
  entries: readonly T[],
): (of: { block: string; season: number }) => readonly T[] {
  const key = ({ block, season }: { block: string; season: number }) => `${season} ${block}`
  const groups = groupedBy(
    entries.filter(({ date }) => date <= asOf),
    key,
  )
  return (of) => groups.get(key(of)) ?? []
}

/** How many of a list in order of their dates, oldest first, are dated before a day. */
export function countBefore<T>(list: readonly T[], day: IsoDate, dateOf: (one: T) => IsoDate): number {
  let [low, high] = [0, list.length]
  while (low < high) {
    const middle = (low + high) >>> 1
    if (dateOf(list[middle]!) < day) low = middle + 1
    else high = middle
  }
  return low
}

/** Whether findings may be made about an entry. */
export const isJudged = ({ seasons }: Book, entry: { season: number }) => seasons.has(entry.season)

/** Every application up to the day of looking, of all seasons read, oldest first. */
export const applications = ({ ledger, asOf }: Book): Application[] =>
  applicationsOf(
    ledger,
    ledger.sprays.filter(({ date }) => date <= asOf),
  )

/** Applications that may get findings. */
export const judgedApplications = (book: Book): Application[] =>
  applications(book).filter(({ spray }) => isJudged(book, spray))

/** What the entry says that a product was against; undefined where it doesn't say. */
export const statedTargets = ({ spray, part }: Application): readonly string[] | undefined =>
  spray.products[part]!.for

/** Path of the dose as it is written. */
export function dosePath({ spray, part }: Application): (string | number)[] {
  const { rate, amount } = spray.products[part]!
  return ['products', part, rate ? 'rate' : amount ? 'amount' : 'concentration']
}

export const productPath = ({ part }: Application): (string | number)[] => ['products', part, 'product']

/** Whether two sprays can have hit the same vines of a block; rows that are apart can't. */
export function overlap(a: Pick<SprayEntry, 'rows'>, b: Pick<SprayEntry, 'rows'>): boolean {
  return !a.rows || !b.rows || (a.rows.low <= b.rows.high && b.rows.low <= a.rows.high)
}

/** Whether an application is of some vines or a share, of which nobody can tell which vines they were. */
export const isLoose = ({ spray, share }: Application): boolean =>
  !spray.rows && (share === null || share < 1 - 1e-9)

/**
 * Whether two applications on a block surely hit one vine at least: rows that both name, one on all of it, or parts that
 * are together more than the block. Where they only may have, the most that a vine can have had is counted.
 */
export function surelyMeet(a: Application, b: Application): boolean {
  if (a.spray.rows && b.spray.rows) return overlap(a.spray, b.spray)
  // What was sprayed of all of it met any spot, however few its vines.
  const [least, most] = [a.share ?? 0, b.share ?? 0].sort((one, other) => one - other) as [number, number]
  return most >= 1 - 1e-9 || least + most > 1 + 1e-9
}

/** How it is said that sprays were counted as on the same vines, and how to tell that they were not. */
export const COUNTED_AS_ONE =
  'sprays of some vines or a share count as on the same vines: write their `rows` where they were others'

/** Things in groups by a key, in the order of their first member. */
export function groupedBy<T>(list: readonly T[], keyOf: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>()
  for (const one of list) {
    const group = groups.get(keyOf(one))
    if (group) group.push(one)
    else groups.set(keyOf(one), [one])
  }
  return groups
}

/** Applications by block and product, each list oldest first. */
export const byBlockAndProduct = (list: readonly Application[]): Application[][] => [
  ...groupedBy(list, ({ block, product }) => `${block.id} ${product.id}`).values(),
]

/** What a rule judges: the ledger as read, on a day, for the entries of some seasons. */
export interface Book {
  ledger: Ledger
  asOf: IsoDate
  /** Seasons whose entries may get findings; entries of others are only looked back on. */
  seasons: ReadonlySet<number>
  /** Highest °C by day number that a forecast names, for days that no station has measured. */
  heatAhead?: ReadonlyMap<number, number> | undefined
}
