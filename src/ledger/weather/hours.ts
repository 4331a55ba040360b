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
  const hours: Span[] = []
  /** Most rows of an hour. */
  let most = 1
  let before = Number.NaN
  let seenTwice = false
  for (let at = 0, end = 0; at < order.length; at = end) {
    const row = order[at]!
    end = endOfHour(rows, order, at)
    most = Math.max(most, end - at)
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
    hours.push({ at, end })
    before = number
  }
  if (zone !== undefined) reportSkippedHour(rows, { order, skipped: changes().skipped, complain })
  return { table: tableOfHours(rows, order, { hours, most }), changes: known ?? none }
}

/** The positions in the order from the first row of an hour to behind its last. */
interface Span {
  at: number
  end: number
}

function tableOfHours(
  rows: WeatherTable,
  order: readonly number[],
  { hours, most }: { hours: readonly Span[]; most: number },
): WeatherTable {
  const measured = Object.keys(rows.readings) as Measured[]
  const isAsRead = hours.length === rows.length && hours.every(({ at }, to) => order[at] === to)
  if (isAsRead && most === 1) {
    const { wetness } = rows.readings
    const whole = wetness && { wetness: wetness.map((minutes) => wholeHour('wetness', minutes)) }
    return { ...rows, readings: { ...rows.readings, ...whole } }
  }
  const table = emptyTable(hours.length, measured)
  table.length = hours.length
  hours.forEach(({ at, end }, to) => {
    const inHour = order.slice(at, end)
    const row = order[at]!
    table.start[to] = rows.start[row]!
    table.day[to] = rows.day[row]!
    table.hour[to] = rows.hour[row]!
    for (const key of measured) table.readings[key]![to] = together(key, rows.readings[key]!, inHour, most)
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

/** An hour can't be wet for more than its 60 minutes. */
const wholeHour = (key: Measured, value: number) => (key === 'wetness' && value > 60 ? 60 : value)

/** Share of an hour's readings from which their mean counts for the hour. Own choice. */
const ENOUGH_OF_AN_HOUR = 0.75

function together(key: Measured, values: Float64Array, rows: readonly number[], most: number): number {
  const known = rows.map((row) => values[row]!).filter((value) => !Number.isNaN(value))
  const sum = known.reduce((all, value) => all + value, 0)
  if (key === 'rain' || key === 'wetness') return known.length < most ? Number.NaN : wholeHour(key, sum)
  return known.length < most * ENOUGH_OF_AN_HOUR ? Number.NaN : sum / known.length
}

const isSundayNight = (rows: WeatherTable, row: number) =>
  (rows.day[row]! + 4) % 7 === 0 && rows.hour[row]! <= 3

const twice = (number: number) => ({
  name: 'hour-twice',
  message: `${hourText(number)} stands here a second time; the first row is used`,
  help: 'take the wrong one of the two rows out',
})

function missingBetween(before: number, next: number, skipped: ReadonlySet<number>): number {
  let missing = 0
  for (let hour = before + 1; hour < next; hour++) if (!skipped.has(hour)) missing++
  return missing
}

function gap(before: number, next: number, missing: number) {
  const message =
    missing === 1
      ? `the hour ${hourText(before + 1)} is missing before this row and counts as unknown`
      : `${missing} hours, ${hourText(before + 1)} to ${hourText(next - 1)}, are missing before this row and count as unknown`
  const help = 'bring them in with `rowbook import weather FILE` where the station still has them'
  return { name: 'weather-gap', level: 'hint' as const, message, help }
}
