import { COLOURS } from './colours.ts'

/** How a report is to be printed. */
export interface Style {
  columns: number
  units: 'metric' | 'us' | 'imperial'
  paint: Paint
}

/** Colours by meaning; they only repeat what a word says. */
export interface Paint {
  bad: (text: string) => string
  doubtful: (text: string) => string
  good: (text: string) => string
  faint: (text: string) => string
  strong: (text: string) => string
}

const PLAIN: Paint = { bad: String, doubtful: String, good: String, faint: String, strong: String }

/** The colours, or none. */
export const paintFor = (coloured: boolean): Paint => (coloured ? COLOURS : PLAIN)
