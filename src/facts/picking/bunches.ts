import type { Ledger } from '../../ledger/read/ledger.ts'
import { diseaseWord } from '../../records/disease.ts'
import type { RoundRow } from '../disease/round-rows.ts'
import { type Threshold, thresholdOf, valueAgainst } from '../disease/threshold.ts'

/** How a find on bunches compares with its limit. */
export interface JudgedBunches {
  row: RoundRow
  /** A share of bunches, or of their surface: what the grower wrote, else the default. */
  limit: Threshold & { share: number }
  /** `open`: the limit is a severity, and severity wasn't scored, so it may lie on either side. */
  stands: 'within' | 'over' | 'open'
  text: string
}

/** Compares severity with a severity limit, and incidence with an incidence limit. */
export function judgeBunches(ledger: Ledger, row: RoundRow): JudgedBunches {
  const threshold = thresholdOf(ledger, { block: row.block, disease: row.disease, organ: 'bunches' })
  const limit = { ...threshold, share: threshold.share ?? 0 }
  const value = valueAgainst(limit, row)
  // The mean severity lies between zero and the case that every affected bunch is rotten all through.
  const isOver = (value ?? row.incidence) > limit.share
  const spread =
    limit.of === 'incidence'
      ? ` (up to ${percent(row.high)}, 19 times in 20)`
      : row.found === 0
        ? ''
        : value === null
          ? `, so 0 to ${percent(row.incidence)} of the surface is diseased`
          : `, ${percent(value)} of their surface`
  return {
    row,
    limit,
    stands: isOver ? (value === null ? 'open' : 'over') : 'within',
    text: `${diseaseWord(row.disease)} on ${row.found} of ${row.looked} bunches${spread}, limit ${percent(limit.share)} (${limit.source})`,
  }
}

export const percent = (share: number) => `${Number((share * 100).toFixed(1))} %`
