import type { StationDay } from '../../ledger/weather/days.ts'
import type { StationHours } from '../../ledger/weather/hours.ts'

/** One day of weather. `null` is unknown, never zero. */
export interface DailyWeather {
  /** Days since 1970-01-01. */
  day: number
  /** °C. */
  min: number | null
  max: number | null
  /** Mean of the hours; for daily rows the written mean, else (min + max) / 2. */
  mean: number | null
  /** mm; null where any hour's rain is unknown. */
  rain: number | null
  /** Hours with a temperature; 24 for a daily row with both ends. */
  hours: number
  /** Whether every hour of the day has a temperature. */
  complete: boolean
  /** Whether something in it was read by hand. */
  byHand?: true
}

/** Fewest hours needed for a day's lowest and highest temperature. Our own choice: five sixths of a day. */
const FEWEST_HOURS = 20

/** Every day from the first hour to the last; days with too few hours have no temperatures. */
export function daysFromHours({ table, changes }: StationHours): DailyWeather[] {
  const { length, day: dayOf, hour, readings } = table
  const { temperature, rain } = readings
  const days: DailyWeather[] = []
  for (let at = 0; at < length; ) {
    const day = dayOf[at]!
    for (let next = (days.at(-1)?.day ?? day - 1) + 1; next < day; next++) days.push(unknownDay(next))
    const counted = { min: Infinity, max: -Infinity, sum: 0, known: 0, rain: 0, dry: 0 }
    let rows = 0
    let again = 0
    for (; at < length && dayOf[at] === day; at++, rows++) {
      if (rows > 0 && hour[at] === hour[at - 1]) again++
      const water = rain ? rain[at]! : Number.NaN
      if (Number.isNaN(water)) counted.dry++
      else counted.rain += water
      const degrees = temperature ? temperature[at]! : Number.NaN
      if (Number.isNaN(degrees)) continue
      counted.known++
      counted.sum += degrees
      if (degrees < counted.min) counted.min = degrees
      if (degrees > counted.max) counted.max = degrees
    }
    const missing = rows - again === 24 ? 0 : missingHours(day, { hour, from: at - rows, to: at, changes })
    const enough = counted.known >= FEWEST_HOURS
    days.push({
      day,
      min: enough ? counted.min : null,
      max: enough ? counted.max : null,
      mean: enough ? counted.sum / counted.known : null,
      rain: missing + counted.dry > 0 ? null : counted.rain,
      hours: counted.known,
      complete: counted.known === rows + missing,
    })
  }
  return days
}

/** Hours of a day without a row, except those that a clock change skips. */
function missingHours(
  day: number,
  from: { hour: Int8Array; from: number; to: number; changes: StationHours['changes'] },
): number {
  const seen = new Set(from.hour.subarray(from.from, from.to))
  let missing = 0
  for (let hour = 0; hour < 24; hour++)
    if (!seen.has(hour) && !from.changes.skipped.has(day * 24 + hour)) missing++
  return missing
}

/** The same for a file with one row a day. */
export function daysFromRows(rows: readonly StationDay[]): DailyWeather[] {
  const days: DailyWeather[] = []
  for (const { day, min, max, mean, rain } of rows) {
    for (let next = (days.at(-1)?.day ?? day - 1) + 1; next < day; next++) days.push(unknownDay(next))
    const known = min !== null && max !== null
    const middle = mean ?? (known ? (min + max) / 2 : null)
    days.push({ day, min, max, mean: middle, rain, hours: known ? 24 : 0, complete: known })
  }
  return days
}

/** A day of which nothing is known. */
export const unknownDay = (day: number): DailyWeather => ({
  day,
  min: null,
  max: null,
  mean: null,
  rain: null,
  hours: 0,
  complete: false,
})
