import { dayNumber } from '../../records/date.ts'
import { type Columns, possible, type WeatherMapping } from './columns.ts'
import type { WeatherTable } from './table.ts'

const TIME = -1
const SKIPPED = -2
const MINUS = 45
const PLUS = 43
const ZERO = 48
const COMMENT = 35

/** Whole numbers of so many digits, and powers of ten up to here, are exact, and so is the rounding of their quotient. */
const MOST_DIGITS = 15
const POWERS = Array.from({ length: MOST_DIGITS + 1 }, (_, power) => 10 ** power)

/**
 * Reads a row as most stations write it, an ISO time and plain numbers in their cells, straight from the
 * characters. The reader adds the row to the table and returns true, or leaves the table and returns false where
 * anything in the row is out of the ordinary. Null where no row of the file can be read so.
 */
export function plainRowReader(
  text: string,
  from: {
    table: WeatherTable
    columns: Columns
    /** Offset behind the header. */
    first: number
    separator: string
    mark: '.' | ','
    dates: WeatherMapping['dates']
  },
): ((start: number, end: number) => boolean) | null {
  const { table, columns, separator } = from
  const timeColumn = columns.time ?? columns.date
  if (separator.length !== 1 || timeColumn === null || (from.dates ?? 'iso') !== 'iso') return null
  if (text.includes('"', from.first) || separator === from.mark) return null
  const timeLength = columns.time === null ? 10 : 16
  const last = Math.max(timeColumn, ...columns.measured.map(({ index }) => index))
  const slots = new Int8Array(last + 1).fill(SKIPPED)
  slots[timeColumn] = TIME
  columns.measured.forEach(({ index }, slot) => {
    slots[index] = slot
  })
  // One column may be mapped to two readings, which is rare enough to be read the long way.
  if (columns.measured.some(({ index }, slot) => slots[index] !== slot)) return null
  const scales = columns.measured.map(({ key, factor, shift }) => ({
    column: table.readings[key]!,
    factor,
    shift,
    ...possible(key, { hourly: columns.time !== null }),
  }))
  const apart = separator.charCodeAt(0)
  const mark = from.mark.charCodeAt(0)
  // An array of the characters' codes is read faster than the text, above all before this is compiled.
  const bytes = Buffer.from(text, 'utf16le')
  const codes = new Uint16Array(bytes.buffer, bytes.byteOffset, text.length)
  let dated = -1
  let lastDay = 0

  const isSameDate = (at: number): boolean => {
    for (let place = 9; place >= 0; place--) if (codes[at + place] !== codes[dated + place]) return false
    return true
  }
  const twoDigits = (at: number): number => {
    const tens = codes[at]! - ZERO
    const ones = codes[at + 1]! - ZERO
    return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : -1
  }
  const readTime = (at: number, row: number): boolean => {
    if (dated < 0 || !isSameDate(at)) {
      const day = dayNumber(text.slice(at, at + 10))
      if (day === null) return false
      dated = at
      lastDay = day
    }
    table.day[row] = lastDay
    if (timeLength === 10) {
      table.hour[row] = -1
      table.minute[row] = 0
      return true
    }
    const hour = twoDigits(at + 11)
    const minute = twoDigits(at + 14)
    table.hour[row] = hour
    table.minute[row] = minute
    const between = codes[at + 10]
    const apartRight = (between === 84 || between === 32) && codes[at + 13] === 58
    return apartRight && hour >= 0 && hour <= 23 && minute >= 0 && minute <= 59
  }

  return (start, end) => {
    if (codes[start]! === COMMENT) return false
    const row = table.length
    let at = start
    for (let index = 0; index <= last; index++) {
      const slot = slots[index]!
      if (slot === TIME) {
        if (at + timeLength > end || !readTime(at, row)) return false
        at += timeLength
      } else if (slot === SKIPPED) while (at < end && codes[at]! !== apart) at++
      else {
        const { column, factor, shift, low, high } = scales[slot]!
        let code = at < end ? codes[at]! : apart
        const sign = code
        if (sign === MINUS || sign === PLUS) code = ++at < end ? codes[at]! : apart
        let whole = 0
        let count = 0
        let decimals = -1
        for (;;) {
          const digit = code - ZERO
          if (digit >= 0 && digit <= 9) {
            whole = whole * 10 + digit
            count++
            if (decimals >= 0) decimals++
          } else if (code === mark && decimals < 0) decimals = 0
          else break
          code = ++at < end ? codes[at]! : apart
        }
        if (code !== apart || count > MOST_DIGITS) return false
        if (count === 0) {
          if (decimals >= 0 || sign === MINUS || sign === PLUS) return false
          column[row] = Number.NaN
        } else {
          const size = decimals > 0 ? whole / POWERS[decimals]! : whole
          const value = (sign === MINUS ? -size : size) * factor + shift
          if (!(value >= low && value <= high)) return false
          column[row] = value
        }
      }
      if (at < end && codes[at]! !== apart) return false
      if (at >= end && index < last) return false
      at++
    }
    table.start[row] = start
    table.length = row + 1
    return true
  }
}
