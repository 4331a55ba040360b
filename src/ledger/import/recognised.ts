import type { Measured, WeatherMapping } from '../weather/columns.ts'
import type { ExportShape } from './export-shape.ts'
import type { HeadingWords } from './weather-words.ts'

/** What a column of an export was taken for. */
export interface ReadColumn {
  name: string
  /** `unused`: understood, and rowbook has no use for it; null: not understood. */
  as: 'time' | 'date' | Measured | 'unused' | null
  unit: string | null
  /** Whether its heading names no unit, so that this one is taken by its values, or as the usual one. */
  unitAssumed: boolean
  /** What it was told by: what was typed, vineyard.yaml or our own names, the words of its heading, its values. */
  by: 'said' | 'name' | 'heading' | 'values' | null
}

/** Something that stops an import, or leaves a column out, until it is said. */
interface Question {
  level: 'error' | 'warning'
  name: string
  message: string
  help: string
}

/** An export understood: how `readRows` reads it, and what is to be told of it. */
export interface Recognised {
  how: WeatherMapping
  head: ExportShape['head']
  utc: boolean
  isDaily: boolean
  /** Whether its rain is a running total, of which each row's rain is the difference. */
  isCounted: boolean
  columns: ReadColumn[]
  questions: Question[]
  /** The time of a row, and a cell as a plain number, as this export has to be read for them. */
  timeOf: (cells: readonly string[]) => string
  numberOf: (cell: string, column: number) => string
}

/** What was said of an export beside its mapping. */
export interface Said {
  how?: WeatherMapping | undefined
  /** Whether its rain is of each row, or a running total. */
  rain?: 'each' | 'counter' | undefined
}

/** An export while it is being understood. */
export interface Recognising extends Said {
  shape: ExportShape
  mapping: WeatherMapping
  units: 'metric' | 'us' | 'imperial' | undefined
  words: HeadingWords[]
  columns: ReadColumn[]
  questions: Question[]
  mark: 'point' | 'comma' | null
  isDaily: boolean
  step: number | null
  timeOf: (cells: readonly string[]) => string
}
