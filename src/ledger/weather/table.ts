import { isoDate } from '../../records/date.ts'
import { clockText } from '../../records/typed/time-range.ts'
import type { Measured } from './columns.ts'

/**
 * Rows of a station's file as columns: index `at` of every array belongs to one row. A year has many rows, and an
 * object for each would take longer to create than reading the file.
 */
export interface WeatherTable {
  length: number
  /** Offset of the row's line. */
  start: Int32Array
  /** Days since 1970-01-01 of the local date. */
  day: Int32Array
  /** 0 to 23; -1 for a row of a whole day. */
  hour: Int8Array
  minute: Int8Array
  /** Readings with a column in the file, in our units; NaN where unknown. */
  readings: Partial<Record<Measured, Float64Array>>
}

/** An empty table with room for `most` rows. */
export function emptyTable(most: number, measured: readonly Measured[]): WeatherTable {
  return {
    length: 0,
    start: new Int32Array(most),
    day: new Int32Array(most),
    hour: new Int8Array(most),
    minute: new Int8Array(most),
    readings: Object.fromEntries(measured.map((key) => [key, new Float64Array(most)])),
  }
}

/** One reading of a row; null where it is unknown or the file has no column for it. */
export function readingAt({ readings }: Pick<WeatherTable, 'readings'>, key: Measured, at: number) {
  const value = readings[key]?.[at]
  return value === undefined || Number.isNaN(value) ? null : value
}

/** A row's hour number: hours since 1970-01-01 00:00 by the local clock. */
export const hourOfRow = ({ day, hour }: WeatherTable, at: number) => day[at]! * 24 + hour[at]!

/** An hour number as text: `2026-06-14 13:00`. */
export const hourText = (number: number, minute = 0) =>
  `${isoDate(Math.floor(number / 24))} ${clockText(number * 60 + minute)}`

/** The time of a row: `2026-06-14 13:00`, or `2026-06-14` where it is of a whole day. */
export const timeOfRow = (table: WeatherTable, row: number) =>
  table.hour[row]! < 0 ? isoDate(table.day[row]!) : hourText(hourOfRow(table, row), table.minute[row])

/** The span in the file of an hourly row's time: `2026-06-14T13:00`. */
export const timeSpan = ({ start }: WeatherTable, row: number) => ({
  start: start[row]!,
  end: start[row]! + 16,
})
