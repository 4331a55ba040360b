import { addDays, type IsoDate } from './date.ts'
import { remembered } from './remembered.ts'

/** Clock time at a place as an instant and back, by the time zone data that comes with Node. */

const MINUTE = 60_000

const formatter = remembered(
  (timeZone) =>
    new Intl.DateTimeFormat('en-GB', {
      timeZone,
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
    }),
)

let clockZone: string | null = null

/**
 * Tells that the clock of this process, as `Date` shows it, runs by a zone. `Date` knows its zone at once, while
 * the first formatter of Intl takes a quarter of the time that Node takes to start.
 */
export function clockRunsBy(zone: string): void {
  clockZone = zone
}

/** Minutes by which the clocks of a zone are ahead of UTC at an instant (ms since 1970). */
export function offsetAt(instant: number, zone: string): number {
  if (zone === clockZone) return 0 - Math.round(new Date(instant).getTimezoneOffset())
  const parts = Object.fromEntries(
    formatter(zone)
      .formatToParts(instant)
      .map((part) => [part.type, Number(part.value)]),
  ) as Record<'year' | 'month' | 'day' | 'hour' | 'minute', number>
  const wall = Date.UTC(parts.year, parts.month - 1, parts.day, parts.hour, parts.minute)
  return Math.round((wall - Math.floor(instant / MINUTE) * MINUTE) / MINUTE)
}

/**
 * The instant (ms since 1970) at which the clocks of a zone show a time. Where they show it twice, the later
 * one, so that a waiting time is never cut short; where they skip it, the instant just after the gap.
 * @param minutes after midnight of the date; beyond 1440 the days after.
 */
export function instantOf(date: IsoDate, minutes: number, zone: string): number {
  const wall =
    Date.parse(`${addDays(date, Math.floor(minutes / 1440))}T00:00:00Z`) + (minutes % 1440) * MINUTE
  const candidates = [offsetAt(wall - 86_400_000, zone), offsetAt(wall + 86_400_000, zone)].map(
    (offset) => wall - offset * MINUTE,
  )
  const shown = candidates.filter((instant) => instant + offsetAt(instant, zone) * MINUTE === wall)
  return Math.max(...(shown.length > 0 ? shown : candidates))
}

/** What the clocks and calendar of a zone show at an instant. `iso` carries the offset: `2026-06-15T20:05+02:00`. */
export function wallClock(instant: number, zone: string): { date: IsoDate; minutes: number; iso: string } {
  const offset = offsetAt(instant, zone)
  const text = new Date(instant + offset * MINUTE).toISOString()
  const sign = offset < 0 ? '-' : '+'
  const part = (value: number) => String(value).padStart(2, '0')
  const shift = `${sign}${part(Math.floor(Math.abs(offset) / 60))}:${part(Math.abs(offset) % 60)}`
  const minutes = Number(text.slice(11, 13)) * 60 + Number(text.slice(14, 16))
  return { date: text.slice(0, 10), minutes, iso: `${text.slice(0, 16)}${shift}` }
}

/** Whether a text names an IANA time zone that this machine knows; the list first, which is quickly asked for. */
export function isTimeZone(zone: string): boolean {
  if (Intl.supportedValuesOf('timeZone').includes(zone)) return true
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone })
    return true
  } catch {
    return false
  }
}
