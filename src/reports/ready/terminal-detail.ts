import { inLedgerUnits } from '../../facts/ledger-units.ts'
import { rough, roughRange } from '../../render/figure.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import type { ReadyBlock } from './report.ts'

/** Why a check has its result; the crop rounded as in the table, in the requested units. */
export function detailOf(
  { gate, detail, estimate, low, high }: ReadyBlock['gates'][number],
  units: Style['units'],
): string {
  if (gate !== 'crop' || !estimate) return inLedgerUnits(safeLine(detail), units)
  if (!low || !high) return `about ${rough(estimate, units)}${detail.slice(detail.indexOf(','))}`
  const grown = detail.slice(detail.indexOf(')') + 1)
  return `about ${rough(estimate, units)} (${roughRange(low, high, units)}, 95 %)${grown}`
}
