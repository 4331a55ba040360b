import { type ClockChanges, clockChanges } from '../../records/zone.ts'
import type { Measured } from './columns.ts'
import type { Complain } from './rows.ts'
import { emptyTable, hourOfRow, hourText, timeSpan, type WeatherTable } from './table.ts'
import { reportSkippedHour } from './unlikely.ts'

/** Whole hours of the local clock in order, and the hours that clock changes skip or repeat. */
export interface StationHours {
  table: WeatherTable
  changes: ClockChanges
}

/**
 * Puts a station's rows into hours of the local clock. Rows within one hour are combined: temperature,
 * humidity and wind as means of at least three quarters of the readings that an hour has, rain and wetness as sums
 * of all of them; less leaves the hour unknown.
 * An hour that a clock change repeats is kept twice; any other second row for an hour is reported and left out.
 * @param order positions of the rows in order of time
 */
export function hoursOf(
  rows: WeatherTable,
  order: readonly number[],
  { zone, complain }: { zone?: string | undefined; complain: Complain },
): StationHours {
  const none: ClockChanges = { skipped: new Set(), repeated: new Set() }
  const [first, last] = [order[0], order.at(-1)]
  if (first === undefined || last === undefined) return { table: emptyTable(0, []), changes: none }
  let known: ClockChanges | null = zone === undefined ? none : null
  // Looked up only where an hour is missing or doubled, since looking up takes longer than reading.
  const changes = () => {
    known ??= clockChanges(zone!, rows.day[first]!, rows.day[last]!)
    return known
  }
  const most = mostInHour(rows, order)
  /** Positions in the order at which an hour begins and ends. */
  const begins: number[] = []
  const ends: number[] = []
  let before = Number.NaN
  let seenTwice = false
  for (let at = 0, end = 0; at < order.length; at = end) {
    const row = order[at]!
    end = most === 1 ? at + 1 : endOfHour(rows, order, at)
    const number = hourOfRow(rows, row)
    if (number === before) {
      if (zone === undefined && isSundayNight(rows, row)) none.repeated.add(number)
      if (seenTwice || !changes().repeated.has(number)) {
        complain(timeSpan(rows, row), twice(number))
        continue
      }
      seenTwice = true
    } else {
      if (number > before + 1) {
        const missing = missingBetween(before, number, changes().skipped)
        if (missing > 0) complain(timeSpan(rows, row), gap(before, number, missing))
      }
      seenTwice = false
    }
    begins.push(at)
    ends.push(end)
    before = number
  }
  if (zone !== undefined) reportSkippedHour(rows, { order, skipped: changes().skipped, complain })
  return { table: tableOfHours(rows, order, { begins, ends, most }), changes: known ?? none }
}

function tableOfHours(
  rows: WeatherTable,
  order: readonly number[],
  { begins, ends, most }: { begins: readonly number[]; ends: readonly number[]; most: number },
): WeatherTable {
  const measured = Object.keys(rows.readings) as Measured[]
  const isAsRead = begins.length === rows.length && begins.every((at, to) => order[at] === to)
  if (isAsRead && most === 1) {
    const { wetness } = rows.readings
    const whole = wetness && { wetness: wetness.map((minutes) => wholeHour('wetness', minutes)) }
    return { ...rows, readings: { ...rows.readings, ...whole } }
  }
  const table = emptyTable(begins.length, measured)
  table.length = begins.length
  begins.forEach((at, to) => {
    const row = order[at]!
    table.start[to] = rows.start[row]!
    table.day[to] = rows.day[row]!
    table.hour[to] = rows.hour[row]!
    for (const key of measured)
      table.readings[key]![to] = together(key, {
        values: rows.readings[key]!,
        order,
        at,
        end: ends[to]!,
        most,
      })
  })
  return table
}

/** The position after the last row of the hour that begins at `at`. */
function endOfHour(rows: WeatherTable, order: readonly number[], at: number): number {
  let end = at + 1
  for (; end < order.length; end++) {
    const row = order[end]!
    const before = order[end - 1]!
    if (hourOfRow(rows, row) !== hourOfRow(rows, before) || rows.minute[row]! <= rows.minute[before]!) break
  }
  return end
}

function mostInHour(rows: WeatherTable, order: readonly number[]): number {
  let most = 1
  let run = 1
  for (let at = 1; at < order.length; at++) {
    const row = order[at]!
    const before = order[at - 1]!
    const isSame =
      rows.hour[row] === rows.hour[before] &&
      rows.day[row] === rows.day[before] &&
      rows.minute[row]! > rows.minute[before]!
    run = isSame ? run + 1 : 1
    if (run > most) most = run
  }
  return most
}

/** An hour can't be wet for more than its 60 minutes. */
const wholeHour = (key: Measured, value: number) => (key === 'wetness' && value > 60 ? 60 : value)

/** Share of an hour's readings from which their mean counts for the hour. Own choice. */
const ENOUGH_OF_AN_HOUR = 0.75

function together(
  key: Measured,
  from: { values: Float64Array; order: readonly number[]; at: number; end: number; most: number },
): number {
  const { values, order, at, end, most } = from
  const isSum = key === 'rain' || key === 'wetness'
  if (isSum && end - at < most) return Number.NaN
  let sum = 0
  let known = 0
  for (let place = at; place < end; place++) {
    const value = values[order[place]!]!
    if (Number.isNaN(value)) continue
    sum += value
    known++
  }
  if (isSum) return known < end - at ? Number.NaN : wholeHour(key, sum)
  return known < most * ENOUGH_OF_AN_HOUR ? Number.NaN : sum / known
}

const isSundayNight = (rows: WeatherTable, row: number) =>
  (rows.day[row]! + 4) % 7 === 0 && rows.hour[row]! <= 3

function twice(number: number) {
  return {
    name: 'hour-twice',
    message: `${hourText(number)} stands here a second time; the first row is used`,
    help: 'take the wrong one of the two rows out',
  }
}

function missingBetween(before: number, next: number, skipped: ReadonlySet<number>): number {
  let missing = 0
  for (let hour = before + 1; hour < next; hour++) if (!skipped.has(hour)) missing++
  return missing
}

function gap(before: number, next: number, missing: number) {
  const span =
    missing === 1
      ? `the hour ${hourText(before + 1)}`
      : `${missing} hours, ${hourText(before + 1)} to ${hourText(next - 1)},`
  return {
    name: 'weather-gap',
    level: 'hint' as const,
    message: `${span} ${missing === 1 ? 'is' : 'are'} missing before this row and ${missing === 1 ? 'counts' : 'count'} as unknown`,
    help: 'bring them in with `rowbook import weather FILE` where the station still has them',
  }
}
