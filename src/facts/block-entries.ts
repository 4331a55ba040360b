import type { IsoDate } from '../records/date.ts'

/** A block in a season, up to a day; in the whole season where no day is given. */
export interface BlockSeason {
  block: string
  season: number
  asOf?: IsoDate
}

/** The entries of a block in a season up to a day, in their order. */
export const entriesOf = <Entry extends { block: string; season: number; date: IsoDate }>(
  entries: readonly Entry[],
  { block, season, asOf }: BlockSeason,
): Entry[] =>
  entries.filter(
    (entry) => entry.block === block && entry.season === season && (asOf === undefined || entry.date <= asOf),
  )
