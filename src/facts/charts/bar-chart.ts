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
