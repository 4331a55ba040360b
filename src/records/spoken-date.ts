import { addDays, calendarDay, dayOf, type IsoDate } from './date.ts'
import { clockText } from './typed/time-range.ts'

const MONTHS = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ')
const WEEKDAYS = 'Mon Tue Wed Thu Fri Sat Sun'.split(' ')
/** Day 0, 1 January 1970, was a Thursday; a week begins on Monday. */
const FROM_MONDAY = 3

/** `Mon 15 Jun`, for screens where the year is plain. @throws RangeError where it is no date. */
export function spokenDate(date: IsoDate): string {
  const weekday = (((dayOf(date) + FROM_MONDAY) % 7) + 7) % 7
  return `${WEEKDAYS[weekday]} ${shortDate(date)}`
}

/** `Mon 15 Jun`, and `Sun 15 Jun 2025` where the year is not that of `asOf`. @throws RangeError where it is no date. */
export const spokenDateAsOf = (date: IsoDate, asOf: IsoDate): string =>
  date.slice(0, 4) === asOf.slice(0, 4) ? spokenDate(date) : `${spokenDate(date)} ${date.slice(0, 4)}`

/** `Nov 2025`, of a month such as `2025-11`. @throws RangeError where it is no month. */
export const monthOf = (month: string): string => `${shortDate(`${month}-01`).slice(2)} ${month.slice(0, 4)}`

/** `15 Jun 2026`. @throws RangeError where it is no date. */
export const longDate = (date: IsoDate): string => `${shortDate(date)} ${date.slice(0, 4)}`

/** `15 Jun to 20 Jun`, or the one day. @throws RangeError where either is no date. */
export const shortSpan = (from: IsoDate, to: IsoDate): string =>
  from === to ? shortDate(from) : `${shortDate(from)} to ${shortDate(to)}`

/** `Mon 15 Jun 18:40`; midnight is the end of the day before. @throws RangeError where it is no date. */
export const spokenTime = (date: IsoDate, minutes: number): string =>
  minutes === 0 ? `the end of ${spokenDate(addDays(date, -1))}` : `${spokenDate(date)} ${clockText(minutes)}`

/** `15 Jun`, for tables. @throws RangeError where it is no date. */
export function shortDate(date: IsoDate): string {
  if (calendarDay(date) === null) throw new RangeError(`shortDate requires an ISO date, got ${date}`)
  return `${Number(date.slice(8))} ${MONTHS[Number(date.slice(5, 7)) - 1]}`
}
