import type { IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import type { Danger } from '../danger/danger.ts'
import type { Gate } from './gate.ts'
import type { PickAdvice } from './rot.ts'
import type { Verdict } from './verdict.ts'

/** What the order of picking goes by, of one block. */
interface Orderable {
  block: string
  verdict: Verdict
  gates: readonly Gate[]
  legalFrom: IsoDate | null
  turns: IsoDate | null
  advice: PickAdvice | null
  danger: Danger | null
  picked: object | null
  /** Whether the sample is above the range of sugar. */
  over: boolean
}

/** A block in the order of picking, and why it stands there. */
export interface Placed {
  block: string
  reasons: string[]
}

const DANGER = { high: 0, moderate: 1, unknown: 2, low: 3 } as const

/**
 * The order in which few hands pick. First what can be picked today: where rot argues for picking now, then by danger of
 * botrytis, then sugar above its range. Then what has a date, by that date, for no danger lets a block be picked before
 * it; on the same day by danger. All other blocks have to be settled first. Common practice, no source.
 */
export function pickingOrder(blocks: readonly Orderable[]): Placed[] {
  const open = blocks.filter(
    ({ verdict, turns, advice, picked }) =>
      picked === null && (verdict === 'ready' || advice !== null || turns !== null),
  )
  return open
    .toSorted((a, b) => compare(keyOf(a), keyOf(b)))
    .map((one) => ({ block: one.block, reasons: reasonsOf(one) }))
}

const keyOf = ({ verdict, advice, danger, turns, over, block }: Orderable): (number | string)[] => [
  advice ? 0 : 1,
  verdict === 'ready' || advice ? '' : (turns ?? ''),
  DANGER[danger?.level ?? 'unknown'],
  over ? 0 : 1,
  block,
]

function compare(a: readonly (number | string)[], b: readonly (number | string)[]): number {
  const at = a.findIndex((value, index) => value !== b[index])
  return at < 0 ? 0 : a[at]! < b[at]! ? -1 : 1
}

function reasonsOf({ verdict, advice, danger, turns, over }: Orderable): string[] {
  return [
    ...(advice ? ['rot argues for picking now'] : []),
    ...(danger && danger.level !== 'low' ? [`botrytis danger ${danger.level}`] : []),
    ...(over ? ['sugar above its range'] : []),
    ...(verdict === 'ready'
      ? ['nothing recorded holds it back']
      : turns
        ? [`from about ${spokenDate(turns)}`]
        : []),
  ]
}
