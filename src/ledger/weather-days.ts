import { daysOfHours, type EveryHour } from '../agronomy/weather-hours.ts'
import { isoDate } from '../records/date.ts'
import type { Complain, StationRow } from './weather-rows.ts'

/** One day of weather. `null` is unknown, never zero. */
export interface DailyWeather {
  /** Days since 1970-01-01. */
  day: number
  /** °C. */
  min: number | null
  max: number | null
  /** Mean of the hours; of daily rows the mean written, else (min + max) / 2. */
  mean: number | null
  /** mm; null where any hour's rain is unknown. */
  rain: number | null
  /** Hours with a temperature; 24 for a daily row with both ends. */
  hours: number
  /** Whether every hour of the day has a temperature. */
  complete: boolean
}

/** Fewest hours from which a day's lowest and highest temperature are taken. Our own choice: five sixths of a day. */
export const FEWEST_HOURS = 20

/** The days of a series of hours; days with too few hours have no temperatures. */
export function daysFromHours(hours: EveryHour): DailyWeather[] {
  return daysOfHours(hours).map(({ day, first, last }) => {
    let min = Infinity
    let max = -Infinity
    let sum = 0
    let known = 0
    let rain: number | null = 0
    for (let at = first; at <= last; at++) {
      const hour = hours[at]!
      rain = rain === null || hour.rain === null ? null : rain + hour.rain
      const { temperature } = hour
      if (temperature === null) continue
      known++
      sum += temperature
      if (temperature < min) min = temperature
      if (temperature > max) max = temperature
    }
    const enough = known >= FEWEST_HOURS
    return {
      day,
      min: enough ? min : null,
      max: enough ? max : null,
      mean: enough ? sum / known : null,
      rain,
      hours: known,
      complete: known === last - first + 1,
    }
  })
}

/** The days of a file with one row a day, in order, with an unknown day where one is missing. */
export function daysFromRows(rows: readonly StationRow[], complain: Complain): DailyWeather[] {
  const days: DailyWeather[] = []
  for (const row of rows) {
    const before = days.at(-1)?.day
    const span = { start: row.start, end: row.start + 10 }
    if (before === row.day) {
      complain(span, {
        name: 'day-twice',
        message: `${isoDate(row.day)} stands here a second time; the first row is used`,
        help: 'take the wrong one of the two rows out',
      })
      continue
    }
    if (before !== undefined && row.day > before + 1) {
      const from = isoDate(before + 1)
      const to = isoDate(row.day - 1)
      complain(span, {
        name: 'weather-gap',
        level: 'hint',
        message: `${from === to ? `${from} is` : `${from} to ${to} are`} missing before this row and unknown`,
        help: 'bring them in with `rowbook import weather FILE` where the station still has them',
      })
      for (let day = before + 1; day < row.day; day++) days.push(unknownDay(day))
    }
    days.push(dayOfRow(row, complain))
  }
  return days
}

function dayOfRow(row: StationRow, complain: Complain): DailyWeather {
  const { day, start, min, max, rain } = row
  if (min !== null && max !== null && min > max) {
    complain(
      { start, end: start + 10 },
      {
        name: 'impossible-reading',
        message: `the lowest temperature, ${min}, is above the highest, ${max}; both count as unknown`,
        help: 'correct the row; perhaps two columns are exchanged',
      },
    )
    return { ...unknownDay(day), rain }
  }
  const known = min !== null && max !== null
  const mean = row.mean ?? row.temperature ?? (known ? (min + max) / 2 : null)
  return { day, min, max, mean, rain, hours: known ? 24 : 0, complete: known }
}

const unknownDay = (day: number): DailyWeather => ({
  day,
  min: null,
  max: null,
  mean: null,
  rain: null,
  hours: 0,
  complete: false,
})
