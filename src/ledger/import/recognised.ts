import { MEASURED, type Measured, type WeatherMapping } from '../weather/columns.ts'
import type { ExportShape } from './export-shape.ts'
import type { HeadingWords } from './weather-words.ts'

/** How a column of an export was recognised. */
export interface ReadColumn {
  name: string
  /** `unused`: understood but not needed; null: not understood. */
  as: 'time' | 'date' | Measured | 'unused' | null
  unit: string | null
  /** Whether the heading names no unit, so that this one comes from the values or is the usual one. */
  unitAssumed: boolean
  /**
   * How it was recognised: from an option, from vineyard.yaml or our own names, from its heading's words, from its
   * values.
   */
  by: 'said' | 'name' | 'heading' | 'values' | null
}

/** The reading that a column holds; null for times, and for what isn't read. */
export const readingOf = ({ as }: Pick<ReadColumn, 'as'>): Measured | null =>
  MEASURED.find((key) => key === as) ?? null

/** A question that stops an import, or leaves a column out, until it is answered. */
export interface Question {
  level: 'error' | 'warning'
  name: string
  message: string
  help: string
  /** Possible answers on a terminal, each with the equivalent options. */
  answers?: readonly Answer[] | undefined
}

/** An answer as shown, and as command-line options. */
export interface Answer {
  shown: string
  columns?: Record<string, string>
  units?: Record<string, string>
  decimal?: WeatherMapping['decimal']
  dates?: WeatherMapping['dates']
  rain?: Said['rain']
}

/** A recognised export: how `readRows` reads it, and what to report about it. */
export interface Recognised {
  how: WeatherMapping
  head: ExportShape['head']
  /** The clock's UTC offset, where its times don't include one and it isn't the vineyard's own clock. */
  offset: string | null
  isDaily: boolean
  /** Whether its rain is a running total, so that a row's rain is the difference. */
  isCounted: boolean
  columns: ReadColumn[]
  questions: Question[]
  /** Columns that aren't understood and may hold what is lacking, their first figures, and possible meanings. */
  open: { name: string; figures: string[]; may: readonly Measured[]; likely: Measured | null }[]
  /** How to read a row's time, and a cell as a plain number, in this export. */
  timeOf: (cells: readonly string[]) => string
  numberOf: (cell: string, column: number) => string
  /** Converts figures in a unit that isn't a multiple of ours into one that is. */
  scale: Partial<Record<Measured, (value: number) => number>>
}

/** What the user said about an export, besides its mapping. */
export interface Said {
  how?: WeatherMapping | undefined
  /** Whether its rain is per row or a running total. */
  rain?: 'each' | 'counter' | undefined
}

/** A column, its place in the row, and what its heading says. */
export interface HeadedColumn extends ReadColumn {
  at: number
  words: HeadingWords
}

/** The working state while an export is being recognised. */
export interface Recognising extends Said {
  shape: ExportShape
  mapping: WeatherMapping
  units: 'metric' | 'us' | 'imperial' | undefined
  columns: HeadedColumn[]
  questions: Question[]
  mark: 'point' | 'comma' | null
  isDaily: boolean
  /** Minutes from one row to the next; null for days, and where there are no clock times. */
  step: number | null
  timeOf: (cells: readonly string[]) => string
}
