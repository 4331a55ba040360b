import type { Ledger } from '../../ledger/read/ledger.ts'
import type { Disease } from '../../records/target.ts'
import { thresholdOf } from '../disease/threshold.ts'
import type { WalkRow } from '../disease/walk-rows.ts'

/** What a disease on the bunches is held against at picking: a share of bunches, or of their surface. */
interface PickingLimit {
  of: 'incidence' | 'severity'
  /** 0 to 1. */
  share: number
  source: string
}

/**
 * Mean severity of botrytis over all bunches at which wineries often refuse fruit: 3 % (benchmark of severity, not of
 * incidence: Aust. J. Grape Wine Res. 2024, 6630039, read).
 */
const BOTRYTIS_SEVERITY = 0.03

/**
 * The limit of a disease on bunches at picking. What the grower wrote counts bunches; for botrytis the usual limit of
 * wineries is one of severity; of the others the default counts bunches.
 */
export function pickingLimit(ledger: Ledger, block: string, disease: Disease): PickingLimit {
  const { share, source } = thresholdOf(ledger, { block, disease, organ: 'bunches' })
  if (disease === 'botrytis' && source.startsWith('default'))
    return {
      of: 'severity',
      share: BOTRYTIS_SEVERITY,
      source: 'usual winery limit, mean severity: Aust. J. Grape Wine Res. 2024, 6630039',
    }
  return { of: 'incidence', share: share ?? 0, source }
}

/** How a find on bunches stands to its limit. */
export interface JudgedBunches {
  row: WalkRow
  limit: PickingLimit
  /** `open`: the limit is one of severity and severity wasn't scored, so that it may lie on either side. */
  stands: 'within' | 'over' | 'open'
  text: string
}

/** Compares like with like: severity with a limit of severity, incidence with one of incidence. */
export function judgeBunches(ledger: Ledger, row: WalkRow): JudgedBunches {
  const limit = pickingLimit(ledger, row.block, row.disease)
  const on = `${row.disease} on ${row.found} of ${row.looked} bunches`
  const against = `${percent(limit.share)} (${limit.source})`
  if (limit.of === 'incidence')
    return {
      row,
      limit,
      stands: row.incidence > limit.share ? 'over' : 'within',
      text: `${on} (up to ${percent(row.high)}, 19 times in 20), limit ${against}`,
    }
  if (row.severity !== null && row.severity <= row.incidence)
    return {
      row,
      limit,
      stands: row.severity > limit.share ? 'over' : 'within',
      text: `${on}, ${percent(row.severity)} of their surface, limit ${against}`,
    }
  // The mean severity lies between nothing and the case that every bunch found is rotten all through.
  const within = row.incidence <= limit.share
  const bounds = row.found === 0 ? '' : `, so 0 to ${percent(row.incidence)} of the surface is diseased`
  return { row, limit, stands: within ? 'within' : 'open', text: `${on}${bounds}, limit ${against}` }
}

export const percent = (share: number) => `${Number((share * 100).toFixed(1))} %`
