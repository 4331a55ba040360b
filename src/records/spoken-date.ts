import { DateTime, FixedOffsetZone } from 'luxon'
import { dayOf, type IsoDate } from './date.ts'

const DAY_MS = 86_400_000
/** The language is named, since luxon else asks Intl for the machine's, which takes long. */
const IN_ENGLISH = { zone: FixedOffsetZone.utcInstance, locale: 'en-US' }

/** `Mon 15 Jun`, for screens where the year is plain. @throws RangeError where it is no date. */
export function spokenDate(date: IsoDate): string {
  const { weekdayShort, day, monthShort } = DateTime.fromMillis(dayOf(date) * DAY_MS, IN_ENGLISH)
  return `${weekdayShort} ${day} ${monthShort}`
}

/** `15 Jun`, for tables. @throws RangeError where it is no date. */
export function shortDate(date: IsoDate): string {
  const { day, monthShort } = DateTime.fromMillis(dayOf(date) * DAY_MS, IN_ENGLISH)
  return `${day} ${monthShort}`
}
