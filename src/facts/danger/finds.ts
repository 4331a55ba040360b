import { addDays, daysBetween, type IsoDate } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import type { Disease } from '../../records/target.ts'
import { type WalkRow, walkRows } from '../disease/walk-rows.ts'
import type { ReportInput } from '../report.ts'
import { thresholdOf } from '../threshold.ts'

/** A disease seen on a scouting round, as long as it weighs. */
export interface Find extends WalkRow {
  /** Whether the share found is at or over the threshold; false where there is none. */
  over: boolean
  /** The threshold, 0 to 1, and who says so. */
  threshold: { share: number | null; source: string }
}

/** Days for which a find weighs fully: a powdery lesion sporulates 28 days (UCCE bulletin, read); for the others our own choice. */
const FRESH = 28

/**
 * What was found of a disease up to a day and isn't cleared. A later round clears a find where it looked at the same
 * organ, at half as many at least, and found none; a smaller find never clears a larger one.
 */
export function findsOn(
  { ledger, season, asOf }: Omit<ReportInput, 'blocks'>,
  { block, disease, date }: { block?: string; disease: Disease; date: IsoDate },
): Find[] {
  const last = date < asOf ? date : asOf
  const rows = ledger.scouting
    .filter(
      (walk) => walk.season === season && walk.date <= last && (block === undefined || walk.block === block),
    )
    .flatMap(walkRows)
    .filter((row) => row.disease === disease)
  return rows
    .filter((row) => row.found > 0 && !rows.some((other) => clears(other, row)))
    .map((row) => {
      const threshold = thresholdOf(ledger, { block: row.block, disease, organ: row.organ })
      return { ...row, threshold, over: threshold.share !== null && row.incidence >= threshold.share }
    })
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

/** Last day on which a find is fresh. */
export const freshUntil = (find: Find): IsoDate => addDays(find.date, FRESH)
