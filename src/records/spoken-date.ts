import { Info } from 'luxon'
import { calendarDay, dayOf, type IsoDate } from './date.ts'

/** The language is named, since luxon else asks Intl for the machine's, which takes long. */
const MONTHS = Info.months('short', { locale: 'en-US' })
const WEEKDAYS = Info.weekdays('short', { locale: 'en-US' })
/** Day 0, 1 January 1970, was a Thursday; a week begins on Monday. */
const FROM_MONDAY = 3

/** `Mon 15 Jun`, for screens where the year is plain. @throws RangeError where it is no date. */
export function spokenDate(date: IsoDate): string {
  const weekday = (((dayOf(date) + FROM_MONDAY) % 7) + 7) % 7
  return `${WEEKDAYS[weekday]} ${shortDate(date)}`
}

/** `15 Jun`, for tables. @throws RangeError where it is no date. */
export function shortDate(date: IsoDate): string {
  if (calendarDay(date) === null) throw new RangeError(`shortDate requires an ISO date, got ${date}`)
  return `${Number(date.slice(8))} ${MONTHS[Number(date.slice(5, 7)) - 1]}`
}
