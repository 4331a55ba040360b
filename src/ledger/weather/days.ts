import { isoDate } from '../../records/date.ts'
import type { Complain } from './rows.ts'
import { readingAt, type WeatherTable } from './table.ts'

/** A row of a daily file. `null` is unknown, never zero. */
export interface StationDay {
  /** Days since 1970-01-01. */
  day: number
  /** °C; both null where the minimum is above the maximum. `mean` is as written. */
  min: number | null
  max: number | null
  mean: number | null
  /** mm. */
  rain: number | null
}

/**
 * The rows of a file with one row a day. Reports a second row for a day, and swapped minimum and maximum.
 * @param order positions of the rows in order of time
 */
export function daysOfRows(
  rows: WeatherTable,
  order: readonly number[],
  { complain }: { complain: Complain },
): StationDay[] {
  const days: StationDay[] = []
  for (const row of order) {
    const before = days.at(-1)?.day
    const day = rows.day[row]!
    const span = { start: rows.start[row]!, end: rows.start[row]! + 10 }
    if (before === day) {
      complain(span, {
        name: 'day-twice',
        message: `${isoDate(day)} stands here a second time; the first row is used`,
        help: 'take the wrong one of the two rows out',
      })
      continue
    }
    if (before !== undefined && day > before + 1) {
      const from = isoDate(before + 1)
      const to = isoDate(day - 1)
      complain(span, {
        name: 'weather-gap',
        level: 'hint',
        message: `${from === to ? `${from} is` : `${from} to ${to} are`} missing before this row and unknown`,
        help: 'bring them in with `rowbook import weather FILE` where the station still has them',
      })
    }
    days.push(dayOfRow(rows, row, (fault) => complain(span, fault)))
  }
  return days
}

function dayOfRow(
  rows: WeatherTable,
  row: number,
  tell: (fault: { name: string; message: string; help: string }) => void,
): StationDay {
  const day = rows.day[row]!
  const rain = readingAt(rows, 'rain', row)
  const min = readingAt(rows, 'min', row)
  const max = readingAt(rows, 'max', row)
  if (min !== null && max !== null && min > max) {
    tell({
      name: 'impossible-reading',
      message: `the lowest temperature, ${min}, is above the highest, ${max}; both count as unknown`,
      help: 'correct the row; perhaps two columns are exchanged',
    })
    return { day, min: null, max: null, mean: null, rain }
  }
  return { day, min, max, mean: readingAt(rows, 'mean', row) ?? readingAt(rows, 'temperature', row), rain }
}
