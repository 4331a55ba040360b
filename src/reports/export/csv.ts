import { type Cell, csvLine } from '../../render/csv.ts'
import type { Value } from './table.ts'

export type Format = 'csv' | 'jsonl'

/** The line that begins a table, or nothing. */
export function headLine(columns: readonly string[], format: Format): string {
  return format === 'csv' ? csvLine(columns) : ''
}

/** One row of a table: as CSV, where lists are JSON in one cell, or as one JSON object on a line. */
export function rowLine(columns: readonly string[], values: readonly Value[], format: Format): string {
  if (format === 'csv') return csvLine(values.map(toCell))
  return `${JSON.stringify(Object.fromEntries(columns.map((name, index) => [name, values[index] ?? null])))}\n`
}

const toCell = (value: Value): Cell =>
  typeof value === 'object' && value !== null ? JSON.stringify(value) : value
