import { DateTime } from 'luxon'
import { dayOf, type IsoDate } from './date.ts'

const DAY_MS = 86_400_000

/** `Mon 15 Jun`, for screens where the year is plain. */
export function spokenDate(date: IsoDate): string {
  return written(date, 'ccc d LLL')
}

/** `15 Jun`, for tables. */
export function shortDate(date: IsoDate): string {
  return written(date, 'd LLL')
}

/** The language is named, since luxon else asks Intl for the machine's. @throws RangeError where it is no date. */
function written(date: IsoDate, format: string): string {
  return DateTime.fromMillis(dayOf(date) * DAY_MS, { zone: 'utc', locale: 'en-US' }).toFormat(format)
}
