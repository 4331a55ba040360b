import ical, { ICalCalendarMethod, ICalEventTransparency } from 'ical-generator'
import type { CalendarEvent } from '../facts/calendar-event.ts'
import { CAUTION, type Report } from '../facts/report.ts'
import { addDays, dayOf } from '../records/date.ts'
import { safe, safeLine } from './safe.ts'

/** Identifies a calendar written by rowbook, which may be replaced. */
export const CALENDAR_MARK = 'PRODID:-//rowbook//vineyard ledger//EN'

interface CalendarLook {
  /** Name of the calendar. */
  site: string
  /** This moment, ms since 1970: the stamp of every event. */
  now: number
}

/**
 * A report as an iCalendar file by RFC 5545. Hours are written in UTC, which every calendar shows in its own zone;
 * whole days have no zone. The sequence number rises with the day of the report, so that a later file wins.
 */
export function renderCalendar(
  { asOf, data }: Report<{ events: readonly CalendarEvent[] }>,
  { site, now }: CalendarLook,
): string {
  const made = ical({
    name: escaped(safeLine(site)),
    prodId: { company: 'rowbook', product: 'vineyard ledger', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
  })
  const stamp = new Date(now)
  for (const event of data.events) {
    made.createEvent({
      id: event.uid,
      ...timesOf(event),
      stamp,
      sequence: dayOf(asOf),
      summary: safe(event.title),
      description: safe([event.detail, ...cautionsOf(event)].join('\n')),
      categories: [{ name: event.kind }],
      transparency: ICalEventTransparency.TRANSPARENT,
    })
  }
  return `${made.toString()}\r\n`
}

/**
 * Escapes the calendar's name, which the library, unlike all other text, writes unescaped (RFC 5545, section 3.3.11).
 */
const escaped = (line: string) => line.replace(/[\\;,]/g, '\\$&')

const cautionsOf = ({ kind }: CalendarEvent) => [
  kind === 're-entry' || kind === 'before-harvest' || kind === 'picking'
    ? CAUTION.clearance
    : CAUTION.estimate,
]

/** The end of whole days is the day after the last, by the standard. */
function timesOf({ start, end, allDay }: CalendarEvent) {
  return allDay
    ? { start: new Date(`${start}T00:00:00Z`), end: new Date(`${addDays(end, 1)}T00:00:00Z`), allDay }
    : { start: new Date(start), end: new Date(end), allDay }
}
