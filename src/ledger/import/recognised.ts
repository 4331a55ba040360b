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
  /** What may be answered to it on a terminal, each as the options that say the same. */
  answers?: readonly Answer[] | undefined
}

/** An answer, as it is shown and as it would be said. */
export interface Answer {
  shown: string
  columns?: Record<string, string>
  units?: Record<string, string>
  decimal?: WeatherMapping['decimal']
  dates?: WeatherMapping['dates']
  rain?: Said['rain']
}

/** An export understood: how `readRows` reads it, and what is to be told of it. */
export interface Recognised {
  how: WeatherMapping
  head: ExportShape['head']
  /** How far its clock is ahead of UTC, where its times don't say so and it isn't the vineyard's own. */
  offset: string | null
  isDaily: boolean
  /** Whether its rain is a running total, of which each row's rain is the difference. */
  isCounted: boolean
  columns: ReadColumn[]
  questions: Question[]
  /** Columns that aren't understood, their first figures, and what they may be. */
  open: { name: string; figures: string[]; may: readonly Measured[]; likely: Measured | null }[]
  /** The time of a row, and a cell as a plain number, as this export has to be read for them. */
  timeOf: (cells: readonly string[]) => string
  numberOf: (cell: string, column: number) => string
  /** Figures of a unit that isn't a multiple of ours, in one that is. */
  scale: Partial<Record<Measured, (value: number) => number>>
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
