import { addDays, calendarDay, dateFault, dayNumber, dayOf, type IsoDate, yearOf } from '../date.ts'
import { fault, type Read } from '../fault.ts'

/** Whether day or month comes first in `5/6`, by the site's country; null where unknown. */
export type DayOrder = 'day-first' | 'month-first' | null

type DateResult = Read<{ date: IsoDate }>

const WEEKDAYS = 'sunday monday tuesday wednesday thursday friday saturday'.split(' ')
const MONTHS = 'january february march april may june july august september october november december'.split(
  ' ',
)

/**
 * What a day is for: work done, where today's weekday may mean today or a week ago, so the program asks
 * which; a measurement just made, where it means today; or a plan, which is in the future.
 */
type Purpose = 'done' | 'measured' | 'planned'

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
  { today, order, purpose = 'done' }: { today: IsoDate | null; order: DayOrder; purpose?: Purpose },
): DateResult {
  const word = text.trim().toLowerCase().replace(/,/g, ' ').replace(/\s+/g, ' ')
  if (dayNumber(word) !== null) return { date: word }
  const spoken = today === null ? null : fromToday(word, today, purpose)
  if (spoken) return spoken
  const bare = word.replace(/^(?:sun|mon|tue|wed|thu|fri|sat)[a-z]* (?=\w*\d|[a-z]{3,9} \d)/, '')
  const read = named(bare, today) ?? numbers(bare, today, order) ?? noDate(text, today)
  if (today === null || purpose !== 'planned' || read.fault || /\d{4}/.test(bare)) return read
  return { date: planned(read.date, today) }
}

/** Days after which a past plan's date means next year's. Our own choice, no source. */
const LOOKED_BACK = 92

/** Chooses between a day of the last twelve months and the same day a year later, for a plan. */
function planned(date: IsoDate, today: IsoDate): IsoDate {
  const later = `${yearOf(date) + 1}${date.slice(4)}`
  return dayOf(today) - dayOf(date) <= LOOKED_BACK || dayNumber(later) === null ? date : later
}

/** The weekday with this beginning, from 0 for Sunday; null where none or several match. */
function weekdayNamed(start: string | undefined): number | null {
  const found = start === undefined ? [] : WEEKDAYS.filter((name) => name.startsWith(start))
  return found.length === 1 ? WEEKDAYS.indexOf(found[0]!) : null
}

/** A day in everyday words, counted from today; one ahead only of a plan. */
function fromToday(word: string, today: IsoDate, purpose: Purpose): DateResult | null {
  const isPlan = purpose === 'planned'
  const days = (count: number) => addDays(today, count)
  if (word === 'today') return { date: today }
  if (word === 'yesterday') return { date: days(-1) }
  if (word === 'tomorrow' && isPlan) return { date: days(1) }
  const [, ago, until] = /^(?:(\d{1,3}) days? ago|in (\d{1,3}) days?)$/.exec(word) ?? []
  if (ago !== undefined) return { date: days(-Number(ago)) }
  if (until !== undefined && isPlan) return { date: days(Number(until)) }
  const [, which, name] = /^(?:(last|on|this|next|coming) )?([a-z]{2,9})$/.exec(word) ?? []
  const weekday = weekdayNamed(name)
  if (weekday === null) return null
  const ahead = (weekday - weekdayOf(today) + 7) % 7
  if (isPlan && which !== 'last') {
    if (which !== 'next') return { date: days(ahead) }
    return ahead === 0 ? { date: days(7) } : twoReadings(word, days(ahead), days(ahead + 7))
  }
  if (which !== undefined && which !== 'last' && which !== 'on') return null
  if (ahead > 0 || which === 'last') return { date: days(ahead - 7) }
  return purpose === 'measured' ? { date: today } : twoReadings(word, today, days(-7))
}

const weekdayOf = (date: IsoDate) => (((dayOf(date) + 4) % 7) + 7) % 7

const DAY_AND_MONTH = /^(?<day>\d{1,2})(?:st|nd|rd|th)?(?: of)? ?(?<name>[a-z]{3,9})\.?(?: (?<year>\d{4}))?$/
const MONTH_AND_DAY = /^(?<name>[a-z]{3,9})\.? ?(?<day>\d{1,2})(?:st|nd|rd|th)?(?: (?<year>\d{4}))?$/

function named(word: string, today: IsoDate | null): DateResult | null {
  const { day, name, year } = (DAY_AND_MONTH.exec(word) ?? MONTH_AND_DAY.exec(word))?.groups ?? {}
  if (name === undefined) return null
  const month = MONTHS.findIndex((one) => one.startsWith(name) || (name === 'sept' && one === 'september'))
  return month < 0 ? null : inYear({ day: Number(day), month: month + 1, year }, today)
}

/** `23/06/2026`, `23.6.26`, `6/23`, `2026/6/3`: with `/`, `.` or `-` between. */
function numbers(word: string, today: IsoDate | null, order: DayOrder): DateResult | null {
  const [, first, month, day] = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(word) ?? []
  if (first !== undefined) return inYear({ year: first, month: Number(month), day: Number(day) }, today)
  const yearLast = /^(\d{1,2})([-/.])(\d{1,2})(?:\2(\d{4}|\d{2})?)?$/.exec(word)
  if (!yearLast) return null
  const [one, other] = [Number(yearLast[1]), Number(yearLast[3])]
  const year = yearLast[4]?.length === 2 ? `20${yearLast[4]}` : yearLast[4]
  const dayFirst = inYear({ day: one, month: other, year }, today)
  const monthFirst = inYear({ day: other, month: one, year }, today)
  if (dayFirst.fault || one === other) return monthFirst.fault ? dayFirst : monthFirst
  if (monthFirst.fault || order === 'day-first') return dayFirst
  if (order === 'month-first') return monthFirst
  return twoReadings(word, dayFirst.date, monthFirst.date)
}

interface CalendarDay {
  day: number
  month: number
  year: string | undefined
}

const two = (number: number) => String(number).padStart(2, '0')

/** The day in its year, or where it has none, in the last year in which it isn't after `today`. */
function inYear({ day, month, year }: CalendarDay, today: IsoDate | null): DateResult {
  const at = (one: number) => `${one}-${two(month)}-${two(day)}`
  if (year === undefined && today === null)
    return fault('the date has no year', `write it as year-month-day, like ${at(2026)}`)
  const date = at(year === undefined ? yearOf(today!) : Number(year))
  if (calendarDay(date) === null) return noSuchDay({ day, month, year })
  if (dayNumber(date) === null) return fault(`${date} ${dateFault(date)}`, 'correct the year')
  if (year !== undefined || date <= today!) return { date }
  const before = at(yearOf(date) - 1)
  return dayNumber(before) === null ? noSuchDay({ day, month, year }) : { date: before }
}

function noSuchDay({ day, month, year }: CalendarDay): DateResult {
  const name = MONTHS[month - 1]
  if (name) return fault(`${name[0]!.toUpperCase()}${name.slice(1)} has no day ${day}`, WAY)
  const swapped = `${year}-${two(day)}-${two(month)}`
  const help = dayNumber(swapped) === null ? WAY : `if day and month were swapped, write ${swapped}`
  return fault(`there is no month ${month}`, help)
}

const WAY = 'write year-month-day, like 2026-06-14'

const twoReadings = (text: string, one: IsoDate, other: IsoDate): DateResult =>
  fault(`\`${text}\` can mean ${one} or ${other}`, `write ${one} or ${other}`)

const noDate = (text: string, today: IsoDate | null): DateResult =>
  fault(
    `\`${text}\` is not a date`,
    today === null
      ? 'write year-month-day, like `2026-06-14`'
      : `write year-month-day, like ${today}, or today, yesterday, a weekday, or 23 June`,
  )

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
