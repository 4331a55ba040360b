import type { Paint } from './colours.ts'

/** How a report is to be printed. */
export interface Style {
  columns: number
  units: 'metric' | 'us' | 'imperial'
  paint: Paint
}

/** No colours. */
export const PLAIN: Paint = { bad: String, doubtful: String, good: String, faint: String, strong: String }
