import type { IsoDate } from '../../records/date.ts'

/** How a span of days was protected. */
export type ProtectionKind = 'protected' | 'protected in part' | 'unprotected' | 'not known'

/** One value a day, as every renderer draws it: block characters in a terminal, SVG in a page. */
export interface DayChart {
  title: string
  /** Unit of the values, empty where they have none. */
  unit: string
  /** Date of the first value; the others follow day by day. */
  from: IsoDate
  /** Ends of the scale. */
  low: number
  high: number
  values: (number | null)[]
  /** Another series to compare with, such as the mean of earlier seasons. */
  beside?: { name: string; values: (number | null)[]; lowest: (number | null)[]; highest: (number | null)[] }
  /** Named parts of the scale. */
  bands?: { name: string; from: number; to: number }[]
  /** What happened on a day. */
  marks?: { date: IsoDate; label: string }[]
  /** Whether a block was protected, as spans of days that don't overlap. */
  spans?: { from: IsoDate; to: IsoDate; kind: ProtectionKind }[]
  /** How several days drawn as one are combined: greatest value or mean. */
  combine: 'greatest' | 'mean'
}
