/** Plain calendar dates as ISO text (`2026-06-14`), and as day numbers: days since 1970-01-01. */
export type IsoDate = string

const DAY_MS = 86_400_000
const SHAPE = /^(\d{4})-(\d{2})-(\d{2})$/

/** The day number of an ISO date, or null where the text is no date of the calendar. */
export function dayNumber(date: string): number | null {
  const match = SHAPE.exec(date)
  if (!match) return null
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])]
  const time = Date.UTC(year, month - 1, day)
  const back = new Date(time)
  if (year < 1000 || back.getUTCMonth() !== month - 1 || back.getUTCDate() !== day) return null
  return time / DAY_MS
}

/**
 * The day number of a date that has been checked already.
 * @throws RangeError where it is no date.
 */
export function dayOf(date: IsoDate): number {
  const day = dayNumber(date)
  if (day === null) throw new RangeError(`dayOf requires an ISO date, got ${date}`)
  return day
}

/** The ISO date of a day number. */
export function isoDate(day: number): IsoDate {
  return new Date(day * DAY_MS).toISOString().slice(0, 10)
}

/** The date so many days later (or earlier, where negative). */
export function addDays(date: IsoDate, days: number): IsoDate {
  return isoDate(dayOf(date) + days)
}

/** Whole days from one date to another; negative where `to` comes first. */
export function daysBetween(from: IsoDate, to: IsoDate): number {
  return dayOf(to) - dayOf(from)
}

export const yearOf = (date: IsoDate): number => Number(date.slice(0, 4))

const WEEKDAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat']
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

/** `Mon 15 Jun`, for screens where the year is plain. */
export function spokenDate(date: IsoDate): string {
  const at = new Date(dayOf(date) * DAY_MS)
  return `${WEEKDAYS[at.getUTCDay()]} ${at.getUTCDate()} ${MONTHS[at.getUTCMonth()]}`
}

/** `15 Jun`, for tables. */
export function shortDate(date: IsoDate): string {
  return spokenDate(date).slice(4)
}
