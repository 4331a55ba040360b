import type { HourlyWeather } from '../agronomy/weather-hours.ts'
import { cellSpan, csvLines, separatorOf, splitLine } from './csv-lines.ts'
import { readDecimal } from './decimal.ts'
import { type Column, type Columns, findColumns, READINGS, type WeatherMapping } from './weather-columns.ts'
import { timeReader } from './weather-time.ts'

/** An hour with its wind in m/s, which the disease models don't ask for. */
export interface StationHour extends HourlyWeather {
  wind: number | null
}

/** A row as it stands in the file; `hour` is -1 where it is of a whole day. One flat object, since a year has many. */
export interface StationRow extends StationHour {
  /** Offset of its line. */
  start: number
  minute: number
  min: number | null
  max: number | null
  mean: number | null
}

/** Says of a span of the file what is wrong with it. */
export type Complain = (
  span: { start: number; end: number },
  fault: { name: string; level?: 'error' | 'warning' | 'hint'; message: string; help: string },
) => void

/** What stations write for a reading that they don't have. */
const NOTHING = new Set(['', '-', '--', '---', 'na', 'n/a', 'nan', 'null', 'none', '#n/a'])

/** Reads the rows of a weather file in the order in which they stand; what can't be read is told and unknown. */
export function readRows(
  text: string,
  options: { mapping?: WeatherMapping | undefined; zone?: string | undefined; complain: Complain },
): { rows: StationRow[]; columns: Columns | null } {
  const { mapping = {}, complain } = options
  const lines = csvLines(text)
  const first = lines.next()
  if (first.done) return { rows: [], columns: null }
  const separator = mapping.separator === 'tab' ? '\t' : (mapping.separator ?? separatorOf(first.value.text))
  const header = splitLine(first.value.text, separator).map((name) => name.trim())
  const columns = findColumns(header, mapping)
  for (const fault of columns.faults) {
    if (!('header' in fault.at)) continue
    const { from, to } = cellSpan(first.value.text, separator, fault.at.header)
    complain({ start: first.value.start + from, end: first.value.start + to }, fault)
  }
  if (columns.time === null && columns.date === null) {
    complain(
      { start: first.value.start, end: first.value.start + first.value.text.length },
      {
        name: 'no-time-column',
        level: 'error',
        message: 'no column holds the time or the date',
        help: 'name it `time` or `date`, or map it in vineyard.yaml: `weather: { columns: { time: ... } }`',
      },
    )
    return { rows: [], columns }
  }
  const readTime = timeReader(mapping.dates, options.zone)
  const mark = mapping.decimal === 'comma' ? ',' : '.'
  const rows: StationRow[] = []
  for (const line of lines) {
    const cells = splitLine(line.text, separator)
    const time = readTime(timeText(cells, columns))
    const at = (index: number) => {
      const { from, to } = cellSpan(line.text, separator, index)
      return { start: line.start + from, end: line.start + to }
    }
    if (!time) {
      complain(at(columns.time ?? columns.date!), badTime(timeText(cells, columns), mapping))
      continue
    }
    const row: StationRow = {
      day: time.day,
      hour: time.hour ?? -1,
      minute: time.minute,
      start: line.start,
      temperature: null,
      humidity: null,
      rain: null,
      wetness: null,
      wind: null,
      min: null,
      max: null,
      mean: null,
    }
    for (const column of columns.measured)
      row[column.key] = readCell(cells[column.index], column, {
        mark,
        complain: (fault) => complain(at(column.index), fault),
      })
    rows.push(row)
  }
  return { rows, columns }
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

function readCell(
  cell: string | undefined,
  { key, factor, shift }: Column,
  how: { mark: '.' | ','; complain: (fault: { name: string; message: string; help: string }) => void },
): number | null {
  const { mark, complain } = how
  if (cell === undefined || cell === '') return null
  let value = readDecimal(cell, mark)
  if (Number.isNaN(value)) {
    const trimmed = cell.trim()
    if (NOTHING.has(trimmed.toLowerCase())) return null
    value = readDecimal(trimmed, mark)
    if (Number.isNaN(value)) {
      const other = mark === '.' && /^[+-]?\d+,\d+$/.test(trimmed)
      complain({
        name: 'bad-cell',
        message: `\`${trimmed.slice(0, 40)}\` is no number; the reading counts as unknown`,
        help: other
          ? 'where the file has decimal commas, say so in vineyard.yaml: `weather: { decimal: comma }`'
          : 'correct it, or leave the cell empty where the station had no reading',
      })
      return null
    }
  }
  const converted = factor === 1 && shift === 0 ? value : value * factor + shift
  const { low, high, unit } = READINGS[key]
  if (converted >= low && converted <= high) return converted
  complain({
    name: 'impossible-reading',
    message: `${cell.trim()} is outside what is possible for ${key}, ${low} to ${high} ${unit}; it counts as unknown`,
    help: 'check the sensor, and the unit under `weather: units:`',
  })
  return null
}
