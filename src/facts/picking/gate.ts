import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import type { IsoDate } from '../../records/date.ts'
import type { ReportInput } from '../report.ts'

export const GATES = ['records', 'before-harvest', 're-entry', 'disease', 'sugar', 'acid', 'crop'] as const

export type GateName = (typeof GATES)[number]
/** `not-asked`: the grower set nothing that it could be held against, so that it stands in nobody's way. */
export type GateState = 'pass' | 'wait' | 'fail' | 'unknown' | 'not-asked'

/** Whether a gate lets a pick through. */
export const isOpen = ({ state }: { state: GateState }) => state === 'pass' || state === 'not-asked'

/** One question before picking, with its answer. */
export interface Gate {
  gate: GateName
  state: GateState
  /** What it is based on, or what is missing. */
  detail: string
  /** What it comes down to, for a table. */
  short: string
  /** What to do until it passes; null where it does. */
  todo: string | null
  /** Day on which it may pass, where a date decides. */
  turns?: IsoDate | null
}

/** What a gate is asked about. */
export interface Asked extends Omit<ReportInput, 'blocks'> {
  block: Named<Block>
}

/** Samples and scouting rounds older than this say too little of today: days. Common practice, no source. */
export const OLDEST = { sample: 10, walk: 14 }
