import { addDays, calendarDay, dateFault, dayNumber, dayOf, type IsoDate, yearOf } from '../date.ts'

/** Whether day or month comes first in `5/6`, by the site's country; null where unknown. */
export type DayOrder = 'day-first' | 'month-first' | null

/** What is wrong with a typed text, and how to fix it. */
export interface Fault {
  message: string
  help: string
}

type DateResult = { date: IsoDate; fault?: undefined } | { date?: undefined; fault: Fault }

const WEEKDAYS = ['sunday', 'monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday']
const MONTHS = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
]

/**
 * What a day is for: work done, where today's weekday may mean today or a week ago, so the program asks
 * which; a measurement just made, where it means today; or a plan, which is in the future.
 */
type Said = 'done' | 'measured' | 'planned'

/**
 * Reads a day as people say and write it: `2026-06-23`, `today`, `yesterday`, `3 days ago`, `monday`, `last monday`,
 * `23 june`, `June 23rd, 2026`, `23/06/2026`, `23.6.`. A day without its year is the last one before or on `today`.
 * Where both numbers could be the month, `order` decides, and without one both readings are reported and the text is
 * refused. Of a plan, `tomorrow`, `in 3 days` and `next sunday` are known too, a weekday is the coming one, and a day
 * without its year lies ahead, or not far back.
 * @param today the day of typing; null in a file, where only a day with its year can be meant
 */
export function readTypedDate(
  text: string,
  { today, order, said = 'done' }: { today: IsoDate | null; order: DayOrder; said?: Said },
): DateResult {
  const word = text.trim().toLowerCase().replace(/,/g, ' ').replace(/\s+/g, ' ')
  if (dayNumber(word) !== null) return { date: word }
  const ahead = today !== null && said === 'planned' ? fromPlan(word, today) : null
  const spoken = ahead ?? (today === null ? null : fromToday(word, today, said))
  if (spoken) return spoken
  const bare = word.replace(/^(?:sun|mon|tue|wed|thu|fri|sat)[a-z]* (?=\w*\d|[a-z]{3,9} \d)/, '')
  const read = named(bare, today) ?? numbers(bare, today, order) ?? refused(text, today)
  if (today === null || said !== 'planned' || read.fault || /\d{4}/.test(bare)) return read
  return { date: planned(read.date, today) }
}

/** Days after which a past plan's date means next year's. Our own choice, no source. */
const LOOKED_BACK = 92

/** Chooses between a day of the last twelve months and the same day a year later, for a plan. */
function planned(date: IsoDate, today: IsoDate): IsoDate {
  const later = `${yearOf(date) + 1}${date.slice(4)}`
  return dayOf(today) - dayOf(date) <= LOOKED_BACK || dayNumber(later) === null ? date : later
}

/** A future day in everyday words. */
function fromPlan(word: string, today: IsoDate): DateResult | null {
  if (word === 'tomorrow') return { date: addDays(today, 1) }
  const days = /^in (\d{1,3}) days?$/.exec(word)
  if (days) return { date: addDays(today, Number(days[1])) }
  const [, which, name] = /^(?:(this|next|on|coming) )?([a-z]{2,9})$/.exec(word) ?? []
  const weekday = weekdayNamed(name)
  if (weekday === null) return null
  const ahead = (weekday - weekdayOf(today) + 7) % 7
  if (which !== 'next') return { date: addDays(today, ahead) }
  if (ahead === 0) return { date: addDays(today, 7) }
  return twoReadings(word, addDays(today, ahead), addDays(today, ahead + 7))
}

/** The weekday with this beginning, from 0 for Sunday; null where none or several match. */
function weekdayNamed(start: string | undefined): number | null {
  const found = start === undefined ? [] : WEEKDAYS.filter((name) => name.startsWith(start))
  return found.length === 1 ? WEEKDAYS.indexOf(found[0]!) : null
}

function fromToday(word: string, today: IsoDate, said: Said): DateResult | null {
  if (word === 'today') return { date: today }
  if (word === 'yesterday') return { date: addDays(today, -1) }
  const ago = /^(\d{1,3}) days? ago$/.exec(word)
  if (ago) return { date: addDays(today, -Number(ago[1])) }
  const last = /^(?:(last|on) )?([a-z]{2,9})$/.exec(word)
  const weekday = weekdayNamed(last?.[2])
  if (weekday === null) return null
  const back = (weekdayOf(today) - weekday + 7) % 7
  if (back > 0) return { date: addDays(today, -back) }
  if (last![1] === 'last') return { date: addDays(today, -7) }
  if (said === 'measured') return { date: today }
  return twoReadings(word, today, addDays(today, -7))
}

const weekdayOf = (date: IsoDate) => (((dayOf(date) + 4) % 7) + 7) % 7

function named(word: string, today: IsoDate | null): DateResult | null {
  const dayFirst = /^(\d{1,2})(?:st|nd|rd|th)?(?: of)? ?([a-z]{3,9})\.?(?: (\d{4}))?$/.exec(word)
  const monthFirst = /^([a-z]{3,9})\.? ?(\d{1,2})(?:st|nd|rd|th)?(?: (\d{4}))?$/.exec(word)
  const [day, name, year] = dayFirst
    ? [dayFirst[1]!, dayFirst[2]!, dayFirst[3]]
    : monthFirst
      ? [monthFirst[2]!, monthFirst[1]!, monthFirst[3]]
      : []
  if (name === undefined) return null
  const month = MONTHS.findIndex((one) => one.startsWith(name) || (name === 'sept' && one === 'september'))
  if (month < 0) return null
  return inYear({ day: Number(day), month: month + 1, year }, today)
}

/** `23/06/2026`, `23.6.26`, `6/23`, `2026/6/3`: with `/`, `.` or `-` between. */
function numbers(word: string, today: IsoDate | null, order: DayOrder): DateResult | null {
  const yearFirst = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(word)
  if (yearFirst)
    return inYear({ year: yearFirst[1], month: Number(yearFirst[2]), day: Number(yearFirst[3]) }, today)
  const yearLast = /^(\d{1,2})([-/.])(\d{1,2})(?:\2(\d{4}|\d{2})?)?$/.exec(word)
  if (!yearLast) return null
  const [first, second] = [Number(yearLast[1]), Number(yearLast[3])]
  const year = yearLast[4]?.length === 2 ? `20${yearLast[4]}` : yearLast[4]
  const dayFirst = inYear({ day: first, month: second, year }, today)
  const monthFirst = inYear({ day: second, month: first, year }, today)
  if (dayFirst.fault || first === second) return monthFirst.fault ? dayFirst : monthFirst
  if (monthFirst.fault || order === 'day-first') return dayFirst
  if (order === 'month-first') return monthFirst
  return twoReadings(word, dayFirst.date, monthFirst.date)
}

function inYear(
  of: { day: number; month: number; year: string | undefined },
  today: IsoDate | null,
): DateResult {
  const at = (year: number) =>
    `${year}-${String(of.month).padStart(2, '0')}-${String(of.day).padStart(2, '0')}`
  if (of.year === undefined && today === null)
    return {
      fault: { message: 'the date has no year', help: `write it as year-month-day, like ${at(2026)}` },
    }
  const year = of.year === undefined ? yearOf(today!) : Number(of.year)
  const date = at(year)
  if (dayNumber(date) === null) return calendarDay(date) === null ? noSuchDay(of, of.year) : farYear(date)
  if (of.year === undefined && date > today!) {
    const before = at(year - 1)
    return dayNumber(before) === null ? noSuchDay(of, of.year) : { date: before }
  }
  return { date }
}

const farYear = (date: IsoDate): DateResult => ({
  fault: { message: `${date} ${dateFault(date)}`, help: 'correct the year' },
})

function noSuchDay({ day, month }: { day: number; month: number }, year: string | undefined): DateResult {
  const isMonth = month >= 1 && month <= 12
  const message = isMonth ? `${MONTH_NAMES[month - 1]} has no day ${day}` : `there is no month ${month}`
  const swapped = `${year}-${String(day).padStart(2, '0')}-${String(month).padStart(2, '0')}`
  const help =
    !isMonth && dayNumber(swapped) !== null
      ? `if day and month were swapped, write ${swapped}`
      : 'write year-month-day, like 2026-06-14'
  return { fault: { message, help } }
}

const MONTH_NAMES = MONTHS.map((name) => name[0]!.toUpperCase() + name.slice(1))

const twoReadings = (text: string, one: IsoDate, other: IsoDate): DateResult => ({
  fault: { message: `\`${text}\` can mean ${one} or ${other}`, help: `write ${one} or ${other}` },
})

const refused = (text: string, today: IsoDate | null): DateResult => ({
  fault: {
    message: `\`${text}\` is not a date`,
    help:
      today === null
        ? 'write year-month-day, like `2026-06-14`'
        : `write year-month-day, like ${today}, or today, yesterday, a weekday, or 23 June`,
  },
})

/** Time zones of countries that write the month first. Common practice, no source. */
const MONTH_FIRST =
  /^(?:US\/|Pacific\/Honolulu|America\/(?:New_York|Chicago|Denver|Los_Angeles|Phoenix|Detroit|Boise|Anchorage|Indiana|Kentucky|North_Dakota))/
/** Time zones of countries that use both orders. */
const BOTH =
  /^(?:Canada\/|America\/(?:Toronto|Vancouver|Halifax|Winnipeg|Edmonton|Regina|Montreal|St_Johns)|UTC|Etc\/)/

/** Whether day or month comes first at a site, by its time zone. */
export function dayOrderOf(timezone: string): DayOrder {
  if (MONTH_FIRST.test(timezone)) return 'month-first'
  return BOTH.test(timezone) ? null : 'day-first'
}
