import type { Ledger, SeasonRecords, SprayEntry } from '../ledger/read/ledger.ts'
import type { IsoDate } from '../records/date.ts'
import type { SeasonKind } from '../records/kinds.ts'
import type { BlockSeason } from './block-entries.ts'
import { type Application, applicationsOf } from './spraying/applications.ts'

/** Entries of a kind that may get findings: of the seasons judged, and not dated after the day of the report. */
export function judged<K extends SeasonKind>(
  { ledger, asOf, seasons }: JudgedLedger,
  kind: K,
): SeasonRecords[K] {
  return ledger[kind].filter((entry) => seasons.has(entry.season) && entry.date <= asOf) as SeasonRecords[K]
}

/**
 * Looks up the entries of a block in a season, up to the day of the report and in order. Made once, so that a rule
 * that looks up each entry takes linear time, not quadratic.
 */
export function inSeason<T extends BlockSeason & { date: string }>(
  { asOf }: JudgedLedger,
  entries: readonly T[],
): (of: BlockSeason) => readonly T[] {
  const groups = groupedBy(
    entries.filter(({ date }) => date <= asOf),
    seasonKey,
  )
  return (of) => groups.get(seasonKey(of)) ?? []
}

/** One block in one season. */
export const seasonKey = ({ block, season }: BlockSeason) => `${block} ${season}`

/** How many items of a list sorted by date, oldest first, are dated before a day. */
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
export const isJudged = ({ seasons }: JudgedLedger, entry: { season: number }) => seasons.has(entry.season)

/** Every application up to the day of the report, of all seasons read, oldest first. */
export const applications = ({ ledger, asOf }: JudgedLedger): Application[] =>
  applicationsOf(
    ledger,
    ledger.sprays.filter(({ date }) => date <= asOf),
  )

/** Applications that may get findings. */
export const judgedApplications = (input: JudgedLedger): Application[] =>
  applications(input).filter(({ spray }) => isJudged(input, spray))

/** The targets that the entry states for a product; undefined where it states none. */
export const statedTargets = ({ spray, part }: Application): readonly string[] | undefined =>
  spray.products[part]!.for

/** Path of the dose in the entry. */
export function dosePath({ spray, part }: Application): (string | number)[] {
  const { rate, amount } = spray.products[part]!
  return ['products', part, rate ? 'rate' : amount ? 'amount' : 'concentration']
}

export const productPath = ({ part }: Application): (string | number)[] => ['products', part, 'product']

/** Whether two sprays can have hit the same vines of a block; separate rows can't. */
export function overlap(a: Pick<SprayEntry, 'rows'>, b: Pick<SprayEntry, 'rows'>): boolean {
  return !a.rows || !b.rows || (a.rows.low <= b.rows.high && b.rows.low <= a.rows.high)
}

/** Whether an application covered some vines or a share of the block, so that which vines is unknown. */
export const isLoose = ({ spray, share }: Application): boolean =>
  !spray.rows && (share === null || share < 1 - 1e-9)

/**
 * Whether two applications on a block certainly share a vine: rows that both name, one on the whole block, or parts
 * that add up to more than the block. Where they only may share one, the worst case for a vine is counted.
 */
export function surelyMeet(a: Application, b: Application): boolean {
  if (a.spray.rows && b.spray.rows) return overlap(a.spray, b.spray)
  // A spray of the whole block also hit every spot.
  const [least, most] = [a.share ?? 0, b.share ?? 0].sort((one, other) => one - other) as [number, number]
  return most >= 1 - 1e-9 || least + most > 1 + 1e-9
}

/** Says that sprays were counted as on the same vines, and how to record that they were not. */
export const COUNTED_AS_ONE =
  'sprays of some vines or a share count as on the same vines: write their `rows` where they were others'

/** Groups items by a key, in the order of first appearance. */
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

/** Input of a rule: the ledger as read, on a day, for the entries of some seasons. */
export interface JudgedLedger {
  ledger: Ledger
  asOf: IsoDate
  /** Seasons whose entries may get findings; entries of others are only looked back on. */
  seasons: ReadonlySet<number>
  /** Forecast highest °C by day number, for days without station data. */
  heatAhead?: ReadonlyMap<number, number> | undefined
}
