import type { Ledger } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import type { Danger } from '../danger/danger.ts'
import { displayMass, unitsOf } from '../ledger-units.ts'
import type { Gate } from './gate.ts'
import { ADVICE, type PickAdvice, saysNow } from './rot.ts'
import type { Verdict } from './verdict.ts'

/** What decides a block's place in the picking order. */
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

/** A block in the picking order, and why it has its place. */
export interface Placed {
  block: string
  reasons: string[]
}

const DANGER = { high: 0, moderate: 1, unknown: 2, low: 3 } as const

/**
 * The picking order for a small crew. First what can be picked today: where rot argues for picking now, then by danger
 * of botrytis, then sugar above its range. Then blocks with a date, by that date, since no danger lets a block be
 * picked before it; on the same day by danger. Last where picking now is only to be weighed, and no date is known.
 * Common practice, no source.
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
  saysNow(advice) ? 0 : 1,
  verdict === 'ready' || saysNow(advice) ? '' : (turns ?? '9999'),
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
    ...(advice ? [saysNow(advice) ? 'rot argues for picking now' : ADVICE[advice.what]] : []),
    ...(danger && danger.level !== 'low' ? [`botrytis danger ${danger.level}`] : []),
    ...(over ? ['sugar above its range'] : []),
    ...(verdict === 'ready'
      ? ['nothing recorded holds it back']
      : turns
        ? [`from about ${spokenDate(turns)}`]
        : []),
  ]
}

/** A block that can be picked now, and the fruit on its vines in kg; null where it was not counted. */
interface Ripe {
  block: string
  crop: number | null
}

/**
 * Whether the blocks that can be picked now fit into the press in one day, in the picking order; a sentence, or null
 * where they fit or only one block waits. Blocks with a date still ahead take no room yet. Common practice, no source.
 */
export function pressRoom(
  ledger: Pick<Ledger, 'vineyard' | 'blocks' | 'saidIn'>,
  order: readonly Placed[],
  ripe: readonly Ripe[],
): string | null {
  const { vineyard, blocks } = ledger
  const waiting = order.flatMap(({ block }) => ripe.find((one) => one.block === block) ?? [])
  if (waiting.length < 2) return null
  const capacity = vineyard.press?.capacity
  if (capacity === undefined)
    return 'The capacity of the press is not recorded: write `press: { capacity: 300 kg }` into vineyard.yaml.'
  const name = (id: string) => blocks.get(id)?.name ?? id
  const say = (kg: number) => displayMass(kg, unitsOf(ledger))
  let sum = 0
  for (const { block, crop } of waiting) {
    if (crop === null)
      return `The press takes ${say(capacity)} a day; what ${name(block)} brings is not known: count bunches.`
    sum += crop
    if (sum > capacity)
      return `The press takes ${say(capacity)} a day: with ${name(block)} it would be about ${say(sum)}. Pick ${block === waiting[0]!.block ? 'it on several days' : 'it on another day'}.`
  }
  return null
}
