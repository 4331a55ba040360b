import { cellsOfLine, separatorOf, splitLine } from '../read/csv.ts'
import {
  type Columns,
  findColumns,
  type Measured,
  possible,
  READINGS,
  type WeatherMapping,
} from './columns.ts'
import { readDecimal } from './decimal.ts'
import { emptyTable, type WeatherTable } from './table.ts'
import { timeForm, timeReader } from './time.ts'

/** Reports a fault in a span of the file. */
export type Complain = (
  span: { start: number; end: number },
  fault: { name: string; level?: 'error' | 'warning' | 'hint'; message: string; help: string },
) => void

/** What stations write for a missing reading. */
export const NOTHING: ReadonlySet<string> = new Set([
  '',
  '-',
  '--',
  '---',
  'na',
  'n/a',
  'nan',
  'null',
  'none',
  '#n/a',
])

interface Reading {
  mapping?: WeatherMapping | undefined
  zone?: string | undefined
  complain: Complain
  /** The heading, where it isn't the file's first line: its names, and the offsets of its start and end. */
  head?: { names: readonly string[]; start: number; end: number } | undefined
  /** The clock's UTC offset, where its times don't include one and it isn't the vineyard's own clock. */
  offset?: string | null | undefined
  /** Converts figures in unusual units to their column's unit. */
  scale?: Partial<Record<Measured, (value: number) => number>> | undefined
  /** How to read a row's time, where it isn't simply the text of the time columns. */
  timeOf?: ((cells: readonly string[]) => string) | undefined
  /** A cell as a plain number, where a unit follows it. */
  numberOf?: ((cell: string, column: number) => string) | undefined
  /** Whether its rain is a running total, which has no upper limit. */
  isCounted?: boolean | undefined
}

/** Reads the rows of a weather file in file order; what can't be read is reported and unknown. */
export function readRows(
  text: string,
  options: Reading,
): { table: WeatherTable; columns: Columns | null; separator: string; header: string[] } {
  const { mapping = {}, complain, head } = options
  const lines = linesOf(text, head?.end)
  const line = head ? { start: head.start, text: text.slice(head.start, head.end) } : lines.shift()
  if (!line) return { table: emptyTable(0, []), columns: null, separator: ',', header: [] }
  const separator = mapping.separator === 'tab' ? '\t' : (mapping.separator ?? separatorOf(line.text))
  const header = head ? [...head.names] : splitLine(line.text, separator).map((name) => name.trim())
  const columns = findColumns(header, mapping)
  for (const fault of columns.faults) {
    if (!('header' in fault.at)) continue
    complain(spanOf(line, separator, fault.at.header), fault)
  }
  if (columns.time === null && columns.date === null) {
    complain(
      { start: line.start, end: line.start + line.text.length },
      {
        name: 'no-time-column',
        level: 'error',
        message: 'no column holds the time or the date',
        help: 'name it `time` or `date`, or map it in vineyard.yaml: `weather: { columns: { time: ... } }`',
      },
    )
    return { table: emptyTable(0, []), columns, separator, header }
  }
  const table = emptyTable(
    lines.length,
    columns.measured.map(({ key }) => key),
  )
  const mark = mapping.decimal === 'comma' ? ',' : '.'
  const read = rowReader({ table, columns, separator, mark, options })
  for (const row of lines) read(row)
  return { table, columns, separator, header }
}

/** A line of the file: the offset of its first character, and its text without the line end. */
interface Line {
  start: number
  text: string
}

/** The non-empty lines from an offset; those that begin with `#` are comments and skipped. */
function linesOf(text: string, from = 0): Line[] {
  const lines: Line[] = []
  let start = from
  for (const written of text.slice(from).split('\n')) {
    const line = written.endsWith('\r') ? written.slice(0, -1) : written
    if (line.trim() !== '' && !line.startsWith('#')) lines.push({ start, text: line })
    start += written.length + 1
  }
  return lines
}

/** A time that includes its UTC offset. */
export const OFFSET = /(?:Z|:\d{2}\s*[+-]\d{2}:?\d{2})$/

/** The span of a cell in a line; the whole line where it has no such cell. */
function spanOf({ start, text }: Line, separator: string, index: number): { start: number; end: number } {
  const { from, to } = cellsOfLine(text, separator)[index] ?? { from: 0, to: text.length }
  return { start: start + from, end: start + to }
}

/** Adds rows to a table, and reports faults in them. */
function rowReader(from: {
  table: WeatherTable
  columns: Columns
  separator: string
  mark: '.' | ','
  options: Reading
}): (line: Line) => void {
  const { table, columns, separator, mark, options } = from
  const { mapping = {}, complain } = options
  const readTime = timeReader(mapping.dates, options.zone)
  const last = columns.measured.reduce((most, { index }) => Math.max(most, index), -1)
  const hourly = columns.time !== null
  const measured = columns.measured.map((column) => {
    const { low, high } = possible(column.key, { hourly })
    const most = options.isCounted && column.key === 'rain' ? Infinity : high
    return {
      ...column,
      low,
      high,
      most,
      scale: options.scale?.[column.key],
      values: table.readings[column.key]!,
    }
  })
  return (line) => {
    const { start, text } = line
    const cells = splitLine(text, separator)
    const said = options.timeOf?.(cells) ?? timeText(cells, columns)
    const time = readTime(
      options.offset && !OFFSET.test(said) && timeForm(said) === 'moment' ? `${said}${options.offset}` : said,
    )
    if (!time) {
      complain(spanOf(line, separator, columns.time ?? columns.date!), badTime(said, mapping))
      return
    }
    const row = table.length++
    table.start[row] = start
    table.day[row] = time.day
    table.hour[row] = time.hour ?? -1
    table.minute[row] = time.minute
    if (cells.length <= last) complain({ start, end: start + text.length }, shortRow(cells.length, last + 1))
    // An iterator would make an object for each of tens of thousands of cells.
    for (let at = 0; at < measured.length; at++) {
      const { key, index, factor, shift, low, high, most, scale, values } = measured[at]!
      const written = cells[index]?.trim() ?? ''
      const cell = options.numberOf?.(written, index).trim() ?? written
      const figure = readDecimal(cell, mark)
      const value = (scale ? scale(figure) : figure) * factor + shift
      const isPossible = value >= low && value <= most
      values[row] = isPossible ? value : Number.NaN
      if (isPossible || NOTHING.has(cell.toLowerCase())) continue
      const fault = Number.isNaN(value) ? notNumber(cell, mark) : impossible(cell, key, { low, high })
      complain(spanOf(line, separator, index), fault)
    }
  }
}

function timeText(cells: readonly string[], { time, date }: Columns): string {
  const clock = time === null ? '' : (cells[time] ?? '').trim()
  const day = date === null ? '' : (cells[date] ?? '').trim()
  if (time === null) return day
  return date !== null && !/[-./]/.test(clock) ? `${day} ${clock}`.trim() : clock
}

function badTime(text: string, mapping: WeatherMapping) {
  const local = /^\d{1,2}[-./]\d{1,2}[-./]\d{2,4}/.test(text) && (mapping.dates ?? 'iso') === 'iso'
  return {
    name: 'bad-time',
    level: 'error' as const,
    message: text === '' ? 'the row has no time' : `\`${text.slice(0, 40)}\` is no time that rowbook reads`,
    help: local
      ? 'where the file writes the day first, say so in vineyard.yaml: `weather: { dates: day-first }`'
      : 'a row begins with a time like 2026-06-14T13:00, or a date like 2026-06-14',
  }
}

const shortRow = (has: number, wants: number) => ({
  name: 'short-row',
  message: `the row ends after ${has} of ${wants} cells; what lacks counts as unknown`,
  help: 'the file may have been cut off here: take the export again, or leave empty cells between separators',
})

function notNumber(cell: string, mark: '.' | ',') {
  const other = mark === '.' && /^[+-]?\d+,\d+$/.test(cell)
  return {
    name: 'bad-cell',
    message: `\`${cell.slice(0, 40)}\` is no number; the reading counts as unknown`,
    help: other
      ? 'where the file has decimal commas, say so in vineyard.yaml: `weather: { decimal: comma }`'
      : 'correct it, or leave the cell empty where the station had no reading',
  }
}

const impossible = (cell: string, key: Measured, { low, high }: { low: number; high: number }) => ({
  name: 'impossible-reading',
  message: `${cell} is outside what is possible for ${key}, ${low} to ${high} ${READINGS[key].unit}; it counts as unknown`,
  help: 'check the sensor, and the unit under `weather: units:`',
})
