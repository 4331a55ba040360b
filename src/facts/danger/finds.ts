import { daysBetween, type IsoDate } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import type { Disease } from '../../records/target.ts'
import { thresholdOf } from '../disease/threshold.ts'
import { type WalkRow, walkRows } from '../disease/walk-rows.ts'
import type { ReportInput } from '../report.ts'

/** A disease seen on a scouting round, as long as it weighs. */
export interface Find extends WalkRow {
  /** Whether the share found is at or over the threshold; false where there is none. */
  over: boolean
  /** The threshold, 0 to 1, and who says so. */
  threshold: { share: number | null; source: string }
}

/** Days for which a find weighs fully: a powdery lesion sporulates 28 days (UCCE bulletin, read); for the others our own choice. */
const FRESH = 28

/** Every row of the season's scouting rounds up to the day of looking, of all blocks. */
export function seenRows({ ledger, season, asOf }: Omit<ReportInput, 'blocks'>): Find[] {
  return ledger.scouting
    .filter((walk) => walk.season === season && walk.date <= asOf)
    .flatMap(walkRows)
    .map((row) => {
      const threshold = thresholdOf(ledger, row)
      return { ...row, threshold, over: threshold.share !== null && row.incidence >= threshold.share }
    })
}

/** A disease that the last round of the season before still found in a block. */
interface LastYear {
  block: string
  disease: Disease
  date: IsoDate
}

/** Days before the end of a season in which a round counts as its end. Common practice, no source. */
const LATE_DAYS = 120

/**
 * What the last rounds of the season before found: what winters in buds, bark and litter. Of seasons whose rounds the
 * report didn't read nothing is known.
 */
export function lastYears({ ledger, season }: Omit<ReportInput, 'blocks'>): LastYear[] {
  const rows = ledger.scouting.filter((walk) => walk.season === season - 1).flatMap(walkRows)
  const end = rows
    .map(({ date }) => date)
    .sort()
    .at(-1)
  if (end === undefined) return []
  const last = (row: WalkRow) =>
    !rows.some(
      (other) =>
        other.block === row.block &&
        other.disease === row.disease &&
        other.organ === row.organ &&
        other.date > row.date,
    )
  return rows
    .filter((row) => row.found > 0 && daysBetween(row.date, end) <= LATE_DAYS && last(row))
    .map(({ block, disease, date }) => ({ block, disease, date }))
}

/**
 * What was found of a disease up to a day and isn't cleared, oldest first. A later round clears a find where it looked
 * at the same organ, at half as many at least, and found none; a smaller find never clears a larger one.
 */
export function findsBy(rows: readonly Find[]): (disease: Disease, date: IsoDate) => Find[] {
  const found = rows
    .filter((row) => row.found > 0)
    .map((find) => {
      const cleared = rows.filter((row) => row.disease === find.disease && clears(row, find))
      return { find, clearedOn: cleared.map(({ date }) => date).sort()[0] ?? null }
    })
  return (disease, date) =>
    found.flatMap(({ find, clearedOn }) =>
      find.disease === disease && find.date <= date && !(clearedOn !== null && clearedOn <= date) ? find : [],
    )
}

const clears = (later: WalkRow, { block, organ, date, looked }: WalkRow): boolean =>
  later.block === block &&
  later.organ === organ &&
  later.date > date &&
  later.found === 0 &&
  later.looked >= looked / 2

export const isFresh = (find: Find, date: IsoDate) => daysBetween(find.date, date) <= FRESH

/** `powdery on 12 of 100 bunches on 26 Jun`. */
export const findText = ({ disease, found, looked, organ, date }: WalkRow) =>
  `${disease} on ${found} of ${looked} ${organ} on ${shortDate(date)}`
