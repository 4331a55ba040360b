import type { Ledger } from '../../ledger/read/ledger.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import type { RoundRow } from '../disease/round-rows.ts'
import { type Threshold, thresholdOf, valueAgainst } from '../disease/threshold.ts'

/** The limit for a disease on bunches at picking: a share of bunches, or of their surface. */
type PickingLimit = Threshold & { share: number }

/** The limit of a disease on bunches at picking: what the grower wrote, else the default. */
export function pickingLimit(ledger: Ledger, block: string, disease: Disease): PickingLimit {
  const threshold = thresholdOf(ledger, { block, disease, organ: 'bunches' })
  return { ...threshold, share: threshold.share ?? 0 }
}

/** How a find on bunches compares with its limit. */
export interface JudgedBunches {
  row: RoundRow
  limit: PickingLimit
  /** `open`: the limit is a severity, and severity wasn't scored, so it may lie on either side. */
  stands: 'within' | 'over' | 'open'
  text: string
}

/** Compares severity with a severity limit, and incidence with an incidence limit. */
export function judgeBunches(ledger: Ledger, row: RoundRow): JudgedBunches {
  const limit = pickingLimit(ledger, row.block, row.disease)
  const on = `${diseaseWord(row.disease)} on ${row.found} of ${row.looked} bunches`
  const against = `${percent(limit.share)} (${limit.source})`
  if (limit.of === 'incidence')
    return {
      row,
      limit,
      stands: row.incidence > limit.share ? 'over' : 'within',
      text: `${on} (up to ${percent(row.high)}, 19 times in 20), limit ${against}`,
    }
  const severity = valueAgainst(limit, row)
  if (severity !== null && row.found > 0)
    return {
      row,
      limit,
      stands: severity > limit.share ? 'over' : 'within',
      text: `${on}, ${percent(severity)} of their surface, limit ${against}`,
    }
  // The mean severity lies between zero and the case that every affected bunch is rotten all through.
  const within = row.incidence <= limit.share
  const bounds = row.found === 0 ? '' : `, so 0 to ${percent(row.incidence)} of the surface is diseased`
  return { row, limit, stands: within ? 'within' : 'open', text: `${on}${bounds}, limit ${against}` }
}

export const percent = (share: number) => `${Number((share * 100).toFixed(1))} %`
