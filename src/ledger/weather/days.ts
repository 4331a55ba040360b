import { isoDate } from '../../records/date.ts'
import type { Measured } from './columns.ts'
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
    const tell = (fault: Parameters<Complain>[1]) =>
      complain({ start: rows.start[row]!, end: rows.start[row]! + 10 }, fault)
    if (before === day) {
      tell({
        name: 'day-twice',
        message: `${isoDate(day)} stands here a second time; the first row is used`,
        help: 'take the wrong one of the two rows out',
      })
      continue
    }
    if (before !== undefined && day > before + 1) {
      const [from, to] = [isoDate(before + 1), isoDate(day - 1)]
      tell({
        name: 'weather-gap',
        level: 'hint',
        message: `${from === to ? `${from} is` : `${from} to ${to} are`} missing before this row and unknown`,
        help: 'bring them in with `rowbook import weather FILE` where the station still has them',
      })
    }
    const read = (key: Measured) => readingAt(rows, key, row)
    const [rain, min, max] = [read('rain'), read('min'), read('max')]
    const isSwapped = min !== null && max !== null && min > max
    if (isSwapped)
      tell({
        name: 'impossible-reading',
        message: `the lowest temperature, ${min}, is above the highest, ${max}; both count as unknown`,
        help: 'correct the row; perhaps two columns are exchanged',
      })
    const mean = read('mean') ?? read('temperature')
    days.push(isSwapped ? { day, min: null, max: null, mean: null, rain } : { day, min, max, mean, rain })
  }
  return days
}
