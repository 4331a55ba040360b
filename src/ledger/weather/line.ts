import { isoDate } from '../../records/date.ts'
import { clockText } from '../../records/typed/time-range.ts'
import {
  type Column,
  findColumns,
  MEASURED,
  type Measured,
  READINGS,
  type WeatherMapping,
} from './columns.ts'
import { readingAt, type WeatherTable } from './table.ts'

/** The form of a weather file: its header, separator, and the mapping that reads it. */
interface WeatherForm {
  header: readonly string[]
  separator: string
  mapping: WeatherMapping
}

/** The form of a new file for the given readings, as the mapping reads it. */
export function newForm(
  mapping: WeatherMapping,
  { isDaily, measured }: { isDaily: boolean; measured: ReadonlySet<Measured> },
): WeatherForm {
  const known = new Map(Object.entries(mapping.columns ?? {}))
  const at = isDaily ? 'date' : 'time'
  const keys = MEASURED.filter((key) => measured.has(key))
  const header = [known.get(at) ?? at, ...keys.map((key) => known.get(key) ?? READINGS[key].name)]
  const usual = mapping.decimal === 'comma' ? ';' : ','
  const separator = mapping.separator === 'tab' ? '\t' : (mapping.separator ?? usual)
  return { header, separator, mapping }
}

/** Writes readings as cells: in their column's unit and decimal mark. */
export function cellWriter({ separator, mapping }: Pick<WeatherForm, 'separator' | 'mapping'>) {
  return (value: number, { factor, shift }: Pick<Column, 'factor' | 'shift'>): string => {
    const text = String(Number(((value - shift) / factor).toFixed(DECIMALS)))
    const cell = mapping.decimal === 'comma' ? text.replace('.', ',') : text
    return cell.includes(separator) ? `"${cell}"` : cell
  }
}

/** Writes rows of a table as lines in another file's form: its columns, units, dates and decimal mark. */
export function lineWriter({ header, separator, mapping }: WeatherForm) {
  const { time, date, measured } = findColumns(header, mapping)
  const write = cellWriter({ separator, mapping })
  return (table: WeatherTable, row: number): string => {
    const cells: string[] = header.map(() => '')
    const day = dateText(isoDate(table.day[row]!), mapping.dates)
    const isDay = table.hour[row]! < 0
    const clock = isDay ? '' : clockText(table.hour[row]! * 60 + table.minute[row]!)
    if (time !== null && date !== null) {
      cells[date] = day
      cells[time] = clock
    } else {
      const between = date === null && (mapping.dates ?? 'iso') === 'iso' ? 'T' : ' '
      cells[(time ?? date)!] = isDay ? day : `${day}${between}${clock}`
    }
    for (const column of measured) {
      const value = readingAt(table, column.key, row)
      if (value !== null) cells[column.index] = write(value, column)
    }
    return cells.join(separator)
  }
}

/** Decimals of a converted reading. */
const DECIMALS = 2

function dateText(iso: string, order: WeatherMapping['dates']): string {
  const [year, month, day] = iso.split('-')
  if (order === 'day-first') return `${day}.${month}.${year}`
  return order === 'month-first' ? `${month}/${day}/${year}` : iso
}
