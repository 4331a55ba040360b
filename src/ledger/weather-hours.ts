import { type EveryHour, everyHour, hourNumber } from '../agronomy/weather-hours.ts'
import { type ClockChanges, clockChanges } from '../records/clock-changes.ts'
import { isoDate } from '../records/date.ts'
import type { Complain, StationHour, StationRow } from './weather-rows.ts'

/**
 * Puts a station's rows into hours of the local clock. Rows within one hour are put together: temperature,
 * humidity and wind as means, rain and wetness as sums, which are unknown where a part of the hour is missing.
 * An hour that the clock has twice is kept twice; any other second row for an hour is told and left out.
 * @param rows in order of time
 */
export function hoursOf(
  rows: readonly StationRow[],
  { zone, complain }: { zone?: string | undefined; complain: Complain },
): EveryHour {
  const first = rows[0]
  const last = rows.at(-1)
  if (!first || !last) return everyHour([])
  const changes: ClockChanges = zone
    ? clockChanges(zone, first.day, last.day)
    : { skipped: new Set(), repeated: new Set() }
  const most = mostInHour(rows)
  const hours: StationHour[] = []
  let before = Number.NaN
  let seenTwice = false
  for (let at = 0, end = 0; at < rows.length; at = end) {
    const row = rows[at]!
    end = endOfHour(rows, at)
    const number = hourNumber(row.day, row.hour)
    if (number === before) {
      const sundayNight = (row.day + 4) % 7 === 0 && row.hour <= 3
      if (!zone && sundayNight) changes.repeated.add(number)
      if (seenTwice || !changes.repeated.has(number)) {
        complain({ start: row.start, end: row.start + 16 }, twice(row))
        continue
      }
      seenTwice = true
    } else {
      if (number > before + 1) tellGap(before, number, { row, complain, skipped: changes.skipped })
      seenTwice = false
    }
    hours.push(most === 1 ? wholeHour(row) : putTogether(rows.slice(at, end), most))
    before = number
  }
  return everyHour(hours, changes)
}

/** Behind the last row of the hour that begins at position `at`. */
function endOfHour(rows: readonly StationRow[], at: number): number {
  let end = at + 1
  for (; end < rows.length; end++) {
    const row = rows[end]!
    const before = rows[end - 1]!
    if (row.day !== before.day || row.hour !== before.hour || row.minute <= before.minute) break
  }
  return end
}

function mostInHour(rows: readonly StationRow[]): number {
  let most = 1
  for (let at = 0, end = 0; at < rows.length; at = end) {
    end = endOfHour(rows, at)
    if (end - at > most) most = end - at
  }
  return most
}

function wholeHour(row: StationRow): StationHour {
  row.wetness = hourOfWetness(row.wetness)
  return row
}

function putTogether(group: readonly StationRow[], most: number): StationHour {
  const { day, hour } = group[0]!
  const mean = (key: 'temperature' | 'humidity' | 'wind') => {
    const known = group.map((row) => row[key]).filter((value) => value !== null)
    return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length
  }
  const sum = (key: 'rain' | 'wetness') =>
    group.length < most
      ? null
      : group.reduce<number | null>((total, row) => {
          const value = row[key]
          return total === null || value === null ? null : total + value
        }, 0)
  return {
    day,
    hour,
    temperature: mean('temperature'),
    humidity: mean('humidity'),
    rain: sum('rain'),
    wetness: hourOfWetness(sum('wetness')),
    wind: mean('wind'),
  }
}

/** An hour can't be wet for more than its 60 minutes. */
const hourOfWetness = (minutes: number | null) => (minutes === null ? null : Math.min(60, minutes))

const clock = (number: number) =>
  `${isoDate(Math.floor(number / 24))} ${String(number - Math.floor(number / 24) * 24).padStart(2, '0')}:00`

function twice({ day, hour }: StationRow) {
  return {
    name: 'hour-twice',
    message: `${clock(hourNumber(day, hour))} stands here a second time; the first row is used`,
    help: 'take the wrong one of the two rows out',
  }
}

function tellGap(
  before: number,
  next: number,
  { row, complain, skipped }: { row: StationRow; complain: Complain; skipped: ReadonlySet<number> },
): void {
  let missing = 0
  for (let hour = before + 1; hour < next; hour++) if (!skipped.has(hour)) missing++
  if (missing === 0) return
  const span =
    missing === 1
      ? `the hour ${clock(before + 1)}`
      : `${missing} hours, ${clock(before + 1)} to ${clock(next - 1)},`
  complain(
    { start: row.start, end: row.start + 16 },
    {
      name: 'weather-gap',
      level: 'hint',
      message: `${span} ${missing === 1 ? 'is' : 'are'} missing before this row and ${missing === 1 ? 'counts' : 'count'} as unknown`,
      help: 'bring them in with `rowbook import weather FILE` where the station still has them',
    },
  )
}
