import type { IsoDate } from '../../records/date.ts'

/** Spans of days, one below the other, each with its likely day. */
export interface SpanChart {
  title: string
  rows: { name: string; earliest: IsoDate; likely: IsoDate | null; latest: IsoDate }[]
}

/** When each block reaches its target; blocks with an open end are left out. */
export const windowChart = (
  title: string,
  blocks: readonly {
    name: string
    earliest: IsoDate | null
    likely: IsoDate | null
    latest: IsoDate | null
  }[],
): SpanChart => ({
  title,
  rows: blocks.flatMap(({ name, earliest, likely, latest }) =>
    earliest && latest ? [{ name, earliest, likely, latest }] : [],
  ),
})
