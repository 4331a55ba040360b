import { daysBetween, type IsoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { type RoundRow, roundRows } from '../disease/round-rows.ts'
import { type Threshold, thresholdOf, valueAgainst } from '../disease/threshold.ts'
import { groupedBy } from '../judged.ts'
import type { ReportInput } from '../report.ts'

/** A disease seen on a scouting round, while it still counts. */
export interface Find extends RoundRow {
  /** Whether what was found is at or over the threshold, or may be; false without a threshold. */
  over: boolean
  /** Whether `over` is uncertain: the threshold is a severity, and severity wasn't scored. */
  unsure: boolean
  threshold: Threshold
}

/**
 * Days for which a find counts in full: a powdery lesion sporulates 28 days (UCCE bulletin, read); our own choice for
 * the others.
 */
const FRESH = 28

/** Every row of the season's scouting rounds up to the day of looking, of all blocks. */
export function seenRows({ ledger, season, asOf }: Omit<ReportInput, 'blocks'>): Find[] {
  return ledger.scouting
    .filter((walk) => walk.season === season && walk.date <= asOf)
    .flatMap(roundRows)
    .map((row) => {
      const threshold = thresholdOf(ledger, row)
      const value = valueAgainst(threshold, row)
      const over = threshold.share !== null && (value ?? row.incidence) >= threshold.share
      return { ...row, threshold, over, unsure: over && value === null }
    })
}

/**
 * Finds of a disease up to a day that no later round has cleared, oldest first. A later round clears a find where it
 * looked at the same organ, at least half as many, and found none; a smaller find never clears a larger one.
 */
export function findsBy(rows: readonly Find[]): (disease: Disease, date: IsoDate) => Find[] {
  const clean = groupedBy(
    rows.filter(({ found }) => found === 0),
    sameVines,
  )
  const found = rows
    .filter((row) => row.found > 0)
    .map((find) => {
      const later = clean.get(sameVines(find)) ?? []
      const by = later.find(({ date, looked }) => date > find.date && looked >= find.looked / 2)
      return { find, clearedOn: by?.date ?? '9999' }
    })
  const byDisease = groupedBy(found, ({ find }) => find.disease)
  return (disease, date) =>
    (byDisease.get(disease) ?? [])
      .filter(({ find, clearedOn }) => find.date <= date && clearedOn > date)
      .map(({ find }) => find)
}

export const sameVines = ({ block, disease, organ }: RoundRow): string => `${block} ${disease} ${organ}`

export const isFresh = (find: Find, date: IsoDate) => daysBetween(find.date, date) <= FRESH

/** `, over the threshold of 3 %`; for a severity threshold also what it measures, and whether that was scored. */
export function overText({ over, unsure, severity, threshold }: Find): string {
  if (!over) return ''
  const limit = `${Number((threshold.share! * 100).toFixed(1))} %`
  if (unsure) return `, severity not scored: it may be over ${limit} of the surface`
  if (threshold.of === 'incidence') return `, over the threshold of ${limit}`
  return `, ${Number((severity! * 100).toFixed(1))} % of the surface, over the threshold of ${limit}`
}

/** `powdery on 12 of 100 bunches on 26 Jun`. */
export const findText = ({ disease, found, looked, organ, date }: RoundRow) =>
  `${diseaseWord(disease)} on ${found} of ${looked} ${organ} on ${shortDate(date)}`
