import { cellsOfLine, splitLine } from '../read/csv.ts'
import type { Ledger } from '../read/ledger.ts'
import { findColumns, type Measured, type WeatherMapping } from '../weather/columns.ts'
import { cellWriter, lineWriter, newForm } from '../weather/line.ts'
import { NOTHING } from '../weather/rows.ts'
import { readingAt, type WeatherTable } from '../weather/table.ts'
import type { ImportTable } from './weather-table.ts'

/** How a season's file will be written: its heading and its rows. */
interface SeasonForm {
  header: readonly string[]
  separator: string
  mapping: WeatherMapping
  /** Readings that the heading has no column for yet. */
  isNew: readonly Measured[]
  /** The heading of a new file, and the line of a row: copied, or, from a file in another form, cell by cell. */
  head: string
  line: (row: number) => string
}

/** The form of a season's file: as it is, plus a column for each reading that it has none for yet. */
export function seasonForm(
  ledger: Ledger,
  { source, target, rows }: { source: ImportTable; target: ImportTable | null; rows: WeatherTable },
): SeasonForm {
  const mapping = ledger.vineyard.weather ?? {}
  const isNew = target ? [...source.measured].filter((key) => !target.measured.has(key)) : []
  const added = newForm(mapping, { isDaily: false, measured: new Set(isNew) }).header.slice(1)
  const form = target
    ? { header: [...target.header, ...added], separator: target.separator, mapping }
    : newForm(mapping, { isDaily: source.rows.hour[0]! < 0, measured: source.measured })
  if (!source.isForeign && rows === source.rows && isNew.length === 0) {
    const head = source.header.join(source.separator)
    return { ...form, isNew, head, line: (row) => lineAsItStands(row, source, target ?? source) }
  }
  const write = lineWriter(form)
  return { ...form, isNew, head: form.header.join(form.separator), line: (row) => write(rows, row) }
}

/** The row's line with its cells in the order of the target's columns; unchanged where they are the same. */
function lineAsItStands(row: number, source: ImportTable, { header, separator }: ImportTable): string {
  const start = source.rows.start[row]!
  const stop = source.text.indexOf('\n', start)
  const line = source.text.slice(start, stop < 0 ? source.text.length : stop).replace(/\r$/, '')
  const isSame = separator === source.separator && header.join() === source.header.join()
  if (isSame && !MAY_REACT.test(line)) return line
  const cells = splitLine(line, source.separator).map((cell) => (reacts(cell.trim()) ? '' : cell))
  return header
    .map((name, at) => {
      const cell = (cells[isSame ? at : source.header.indexOf(name)] ?? '').trim()
      return cell.includes(separator) || cell.includes('"') ? `"${cell.replaceAll('"', '""')}"` : cell
    })
    .join(separator)
}

/** Characters that may start a spreadsheet formula; a line of plain numbers has none. */
const MAY_REACT = /[=@+|]|[-][^\d]/

/** Whether a spreadsheet would read a cell as a formula: it is left out and counts as unknown. */
const reacts = (cell: string) => /^[=@+-]/.test(cell) && !/^[+-]?[\d.,]+$/.test(cell)

/**
 * The text of a season's file with empty cells filled in, and with a new column for each reading it had
 * none for. No filled cell is changed, and nothing else in the file.
 * @param pairs rows of the file, and the row of `rows` that has readings for each
 * @param always whether rows are also added, so that new columns are needed even if nothing is filled
 * @returns the text, and how many rows were filled
 */
export function filledText(
  target: ImportTable,
  {
    rows,
    pairs,
    form: { header, separator, mapping, isNew },
    always,
  }: { rows: WeatherTable; pairs: ReadonlyMap<number, number>; form: SeasonForm; always: boolean },
): { text: string; filled: number } {
  const { measured } = findColumns(header, mapping)
  const write = cellWriter({ separator, mapping })
  const rowAt = new Map(Array.from({ length: target.rows.length }, (_, at) => [target.rows.start[at]!, at]))
  const added = header.slice(header.length - isNew.length)
  let filled = 0
  let isHead = true
  const text = target.text.replace(/[^\n]*\n?/g, (whole, start: number) => {
    const [, line, end] = /^([^\r\n]*)(\r?\n?)$/.exec(whole) ?? ['', whole, '']
    if (line!.trim() === '' || line!.startsWith('#')) return whole
    if (isHead) {
      isHead = false
      return `${[line, ...added].join(separator)}${end}`
    }
    const there = rowAt.get(start)
    const row = there === undefined ? undefined : pairs.get(there)
    if (there === undefined || (row === undefined && isNew.length === 0)) return whole
    const cells = cellsOfLine(line!, separator).map(({ from, to }) => line!.slice(from, to))
    while (cells.length < header.length) cells.push('')
    let got = false
    for (const column of measured) {
      const value = row === undefined ? null : readingAt(rows, column.key, row)
      if (value === null || !NOTHING.has(cells[column.index]!.trim().toLowerCase())) continue
      cells[column.index] = write(value, column)
      got = true
    }
    if (got) filled++
    return got || isNew.length > 0 ? `${cells.join(separator)}${end}` : whole
  })
  return { text: filled > 0 || always ? text : target.text, filled }
}
