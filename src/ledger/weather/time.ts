import { dayNumber, dayOf } from '../../records/date.ts'
import { wallClock } from '../../records/zone.ts'
import type { WeatherMapping } from './columns.ts'

/** A station's time by the local clock; `hour` is null where only a date is written. */
interface StationTime {
  day: number
  hour: number | null
  minute: number
}

type Order = NonNullable<WeatherMapping['dates']>

/** Reads a station's times, remembering the last date, which usually repeats. */
export function timeReader(order: Order = 'iso', zone?: string): (text: string) => StationTime | null {
  let lastText = ''
  let lastDay: number | null = null
  const dayOfText = (text: string) => {
    if (text !== lastText) {
      lastText = text
      lastDay = dateOf(text, order)
    }
    return lastDay
  }
  return (text) => {
    const plain = plainIso(text, order, dayOfText)
    if (plain !== undefined) return plain
    const match = TIME.exec(text)
    if (!match) return null
    const day = dayOfText(match[1]!)
    if (day === null) return null
    if (match[2] === undefined) return { day, hour: null, minute: 0 }
    const minute = Number(match[3])
    const hour = clockHour(Number(match[2]), match[4])
    if (hour === null || minute > 59) return null
    const offset = match[5]
    if (offset !== undefined && zone !== undefined) return inZone({ day, hour, minute }, offset, zone)
    return hour === 24 ? { day: day + 1, hour: 0, minute } : { day, hour, minute }
  }
}

const TIME =
  /^(\d{1,4}[-./]\d{1,2}[-./]\d{1,4})(?:[T ]+(\d{1,2}):(\d{2})(?::\d{2}(?:[.,]\d+)?)?(?:\s*([AaPp][Mm]))?(?:\s*(Z|[+-]\d{2}:?\d{2}))?)?$/

/** What a cell looks like: a day with a clock time, a day alone, a clock time alone, or none of these. */
export function timeForm(text: string): 'moment' | 'day' | 'clock' | null {
  const match = TIME.exec(text)
  if (match) return match[2] === undefined ? 'day' : 'moment'
  return CLOCK.test(text) ? 'clock' : null
}

const CLOCK = /^\d{1,2}:\d{2}(?::\d{2})?(?:\s*[AaPp][Mm])?$/

/** Reads `2026-06-14T13:00`, the usual form, by position; undefined for any other form. */
function plainIso(
  text: string,
  order: Order,
  dayOfText: (text: string) => number | null,
): StationTime | null | undefined {
  if (order !== 'iso' || text.length !== 16 || text[13] !== ':' || text[4] !== '-') return undefined
  const hour = twoDigits(text, 11)
  const minute = twoDigits(text, 14)
  if (hour < 0 || hour > 23 || minute < 0 || minute > 59) return undefined
  const day = dayOfText(text.slice(0, 10))
  return day === null ? null : { day, hour, minute }
}

function twoDigits(text: string, at: number): number {
  const tens = text.charCodeAt(at) - 48
  const ones = text.charCodeAt(at + 1) - 48
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : -1
}

function dateOf(text: string, order: Order): number | null {
  const parts = text.split(/[-./]/)
  const [year, month, day] =
    order === 'iso' || parts[0]!.length === 4
      ? [parts[0], parts[1], parts[2]]
      : order === 'day-first'
        ? [parts[2], parts[1], parts[0]]
        : [parts[2], parts[0], parts[1]]
  if (year === undefined || month === undefined || day === undefined) return null
  const whole = year.length === 2 && order !== 'iso' ? `20${year}` : year
  return dayNumber(`${whole}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`)
}

function clockHour(hour: number, half: string | undefined): number | null {
  if (half === undefined) return hour <= 24 ? hour : null
  if (hour < 1 || hour > 12) return null
  return (hour % 12) + (half.toLowerCase() === 'pm' ? 12 : 0)
}

/** Converts a time with its UTC offset to the vineyard's clock. */
function inZone(
  time: { day: number; hour: number; minute: number },
  offset: string,
  zone: string,
): StationTime {
  const digits = offset.replace(/[^\d]/g, '')
  const minutes = offset === 'Z' ? 0 : Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2, 4))
  const ahead = offset.startsWith('-') ? -minutes : minutes
  const instant = ((time.day * 24 + time.hour) * 60 + time.minute - ahead) * 60_000
  const { date, minutes: local } = wallClock(instant, zone)
  return { day: dayOf(date), hour: Math.floor(local / 60), minute: local % 60 }
}
