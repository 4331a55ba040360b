import { rough, roughRange } from '../../render/figure.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import type { ReadyBlock } from './report.ts'

/** Blocks that can be picked first, then by the day on which they may be ready; those already picked last. */
export function earliestFirst(blocks: readonly ReadyBlock[]): ReadyBlock[] {
  const key = ({ picked, verdict, turns, window, legalFrom }: ReadyBlock) => {
    if (picked) return '9999-12-31'
    if (verdict === 'ready') return '0000'
    const days = [turns, turns === null ? window.likely : null, legalFrom].filter((day) => day !== null)
    return days.sort().at(-1) ?? '9999'
  }
  return blocks.toSorted((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0))
}

/** Why a check has its result; the crop rounded as in the table, in the units asked for. */
export function detailOf(
  { gate, detail, estimate, low, high }: ReadyBlock['gates'][number],
  units: Style['units'],
): string {
  if (gate !== 'crop' || !estimate || !low || !high) return safeLine(detail)
  const grown = detail.slice(detail.indexOf(')') + 1)
  return `about ${rough(estimate, units)} (${roughRange(low, high, units)}, 95 %)${grown}`
}
