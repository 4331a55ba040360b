import { cellsOfLine } from '../read/csv.ts'
import { findColumns, type Measured, READINGS } from '../weather/columns.ts'
import { cellWriter } from '../weather/line.ts'
import { NOTHING } from '../weather/rows.ts'
import type { WeatherTable } from '../weather/table.ts'
import { readingAt } from '../weather/table.ts'
import type { ImportTable, SeasonForm } from './weather-table.ts'

/** A reading that differs between ledger and export; the ledger's is kept. */
export interface Differing {
  time: string
  what: Measured
  /** In rowbook's own unit. */
  stands: number
  read: number
  unit: string
}

const COMPARED = ['temperature', 'humidity', 'rain', 'wetness', 'wind', 'min', 'max', 'mean'] as const

/** Slightly more than half of the last digit of a converted reading. */
const WRITTEN = 0.0051

type At = readonly [table: WeatherTable, row: number]

/** The readings that differ between two rows of the same time. */
export function differing([one, at]: At, [other, place]: At, time: string): Differing[] {
  return COMPARED.flatMap((what) => {
    const [stands, read] = [readingAt(one, what, at), readingAt(other, what, place)]
    if (stands === null || read === null || Math.abs(stands - read) <= WRITTEN) return []
    return [{ time, what, stands, read, unit: READINGS[what].unit }]
  })
}

/** Row of the season's file, and the row of the export that has readings for it. */
export type Pair = readonly [there: number, row: number]

/**
 * The text of a season's file with empty cells filled in, and with a new column for each reading it had
 * none for. No filled cell is changed, and nothing else in the file.
 * @param filling `always` is true where rows are also added, so that new columns are needed even if nothing is filled
 * @returns the text, and how many rows were filled
 */
export function filledText(
  target: ImportTable,
  rows: WeatherTable,
  { pairs, form, always }: { pairs: readonly Pair[]; form: SeasonForm; always: boolean },
): { text: string; filled: number } {
  const { measured } = findColumns(form.header, form.mapping)
  const write = cellWriter(form)
  const by = new Map(pairs.map(([there, row]) => [target.rows.start[there]!, row]))
  const own = new Set(target.rows.start.subarray(0, target.rows.length))
  const extra = form.isNew.length
  let filled = 0
  let isHead = true
  const text = target.text.replace(/[^\n]*\n?/g, (whole, start: number) => {
    const [, line, end] = /^([^\r\n]*)(\r?\n?)$/.exec(whole) ?? ['', whole, '']
    if (line!.trim() === '' || line!.startsWith('#')) return whole
    if (isHead) {
      isHead = false
      return extra === 0
        ? whole
        : `${line}${form.separator}${form.header.slice(-extra).join(form.separator)}${end}`
    }
    const row = by.get(start)
    if (!own.has(start) || (row === undefined && extra === 0)) return whole
    const cells = cellsOfLine(line!, form.separator).map(({ from, to }) => line!.slice(from, to))
    while (cells.length < form.header.length) cells.push('')
    let got = false
    for (const column of measured) {
      const value = row === undefined ? null : readingAt(rows, column.key, row)
      if (value === null || !NOTHING.has(cells[column.index]!.trim().toLowerCase())) continue
      cells[column.index] = write(value, column)
      got = true
    }
    if (got) filled++
    return got || extra > 0 ? `${cells.join(form.separator)}${end}` : whole
  })
  return { text: filled > 0 || always ? text : target.text, filled }
}
