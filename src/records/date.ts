/** Plain calendar dates as ISO text (`2026-06-14`), and as day numbers: days since 1970-01-01. */
export type IsoDate = string

const DAY_MS = 86_400_000
const DASH = 45
const ZERO = 48
/** Days before each month of a year that isn't a leap year. */
const BEFORE = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365]

/** The years a ledger may cover; a date outside them is a typing mistake, and refused when read. */
export const FIRST_YEAR = 1900
export const LAST_YEAR = 2200

/** The day number of an ISO date as read, or null where the text is no date, or none of the years 1900 to 2200. */
export function dayNumber(date: string): number | null {
  const year = digits(date, 0, 4)
  return year >= FIRST_YEAR && year <= LAST_YEAR ? calendarDay(date) : null
}

/** The latest of dates; undefined of none. */
export const latestOf = (dates: Iterable<IsoDate>): IsoDate | undefined => [...dates].sort().at(-1)

/** What is wrong with a text that `dayNumber` doesn't take. */
export const dateFault = (text: string): string =>
  calendarDay(text) === null
    ? 'is not a date of the calendar'
    : `is outside the years ${FIRST_YEAR} to ${LAST_YEAR}`

/** The day number of any ISO date from the year 1000, or null where the text isn't one: for calculated dates. */
export function calendarDay(date: string): number | null {
  if (date.length !== 10 || date.charCodeAt(4) !== DASH || date.charCodeAt(7) !== DASH) return null
  const year = digits(date, 0, 4)
  const month = digits(date, 5, 7)
  const day = digits(date, 8, 10)
  if (!(year >= 1000 && month >= 1 && month <= 12 && day >= 1)) return null
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 1 : 0
  const before = BEFORE[month - 1]!
  if (day > BEFORE[month]! - before + (month === 2 ? leap : 0)) return null
  const past = year - 1
  const leaps = Math.floor(past / 4) - Math.floor(past / 100) + Math.floor(past / 400)
  return past * 365 + leaps - EPOCH + before + (month > 2 ? leap : 0) + day - 1
}

/** Days from 0001-01-01 to 1970-01-01. */
const EPOCH = 719_162

/** The number written by the characters from one place to another; NaN where one isn't a digit. */
function digits(text: string, from: number, to: number): number {
  let value = 0
  for (let at = from; at < to; at++) {
    const digit = text.charCodeAt(at) - ZERO
    if (!(digit >= 0 && digit <= 9)) return Number.NaN
    value = value * 10 + digit
  }
  return value
}

/**
 * The day number of a date that was already checked.
 * @throws RangeError where it is no date.
 */
export function dayOf(date: IsoDate): number {
  const day = calendarDay(date)
  if (day === null) throw new RangeError(`dayOf requires an ISO date, got ${date}`)
  return day
}

/** The ISO date of a day number. */
export function isoDate(day: number): IsoDate {
  return new Date(day * DAY_MS).toISOString().slice(0, 10)
}

/** The date a number of days later (or earlier, where negative). */
export function addDays(date: IsoDate, days: number): IsoDate {
  return isoDate(dayOf(date) + days)
}

/** Whole days from one date to another; negative where `to` comes first. */
export function daysBetween(from: IsoDate, to: IsoDate): number {
  return dayOf(to) - dayOf(from)
}

export const yearOf = (date: IsoDate): number => Number(date.slice(0, 4))
