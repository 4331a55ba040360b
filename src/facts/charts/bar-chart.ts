import { highest } from '../../agronomy/statistics/extremes.ts'

/** Figures as bars from zero, with their interval and their limit. */
export interface BarChart {
  title: string
  unit: string
  bars: {
    name: string
    value: number
    low?: number | null
    high?: number | null
    /** The limit that must not be exceeded. */
    limit?: number | null
  }[]
}

/** The end of the scale: the highest of figures, ends of intervals and limits; 0 at least. */
export const highestOf = (bars: BarChart['bars']): number =>
  Math.max(0, highest(bars.flatMap(({ value, high, limit }) => [value, high ?? 0, limit ?? 0])))
