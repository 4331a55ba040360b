import type { Named } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Quantity } from '../../records/quantity.ts'
import type { ReportInput } from '../report.ts'

export const GATES = ['records', 'before-harvest', 're-entry', 'disease', 'sugar', 'acid', 'crop'] as const

export type GateName = (typeof GATES)[number]
/** `not-asked`: the grower set nothing to compare with, so it holds up no pick. */
type GateState = 'pass' | 'wait' | 'fail' | 'unknown' | 'not-asked'

/** Whether a gate lets a pick through. */
export const isOpen = ({ state }: { state: GateState }) => state === 'pass' || state === 'not-asked'

/** One question before picking, with its answer. */
export interface Gate {
  gate: GateName
  state: GateState
  /** What it is based on, or what is missing. */
  detail: string
  /** The result in a few words, for a table. */
  short: string
  /** What to do to make it pass; null where it passes. */
  todo: string | null
  /** Day on which it may pass, where that depends on a date. */
  turns?: IsoDate | null
  /** Re-entry: the end of the last interval, as ISO time with offset. */
  until?: string | null
  /** Sugar: how likely it is at its target now, 0 to 1. */
  probability?: number | null
  /** Crop: the estimate and its 95 % interval. */
  estimate?: Quantity | null
  low?: Quantity | null
  high?: Quantity | null
}

/** The answers of a gate: each with its reason, in short for a table, and what to do. */
export function answersOf(gate: GateName) {
  const answer =
    (state: GateState) =>
    (detail: string, short: string, todo: string | null = null): Gate => ({
      gate,
      state,
      detail,
      short,
      todo,
    })
  return {
    pass: answer('pass'),
    wait: answer('wait'),
    fail: answer('fail'),
    unknown: answer('unknown'),
    notAsked: answer('not-asked'),
  }
}

/** Input of a gate. */
export interface Asked extends Omit<ReportInput, 'blocks'> {
  block: Named<Block>
}

/** Days after which samples and scouting rounds say too little about today. Common practice, no source. */
export const OLDEST = { sample: 10, walk: 14 }
