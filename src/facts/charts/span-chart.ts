import type { IsoDate } from '../../records/date.ts'

/** Spans of days, one below the other, each with its likely day. */
export interface SpanChart {
  title: string
  rows: { name: string; earliest: IsoDate; likely: IsoDate | null; latest: IsoDate; strong?: boolean }[]
  marks: { date: IsoDate; label: string }[]
}
