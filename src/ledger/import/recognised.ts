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
