import { addDays, dayNumber, dayOf, type IsoDate } from '../../records/date.ts'

const WEEKDAYS = ['sunday', 'monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday']

type DayResult = { date: IsoDate; fault?: undefined } | { date?: undefined; fault: Fault }

/** What is wrong with a typed text, and the way out. */
export interface Fault {
  message: string
  help: string
}

/**
 * Reads a day as typed: an ISO date, `today`, `yesterday`, `3 days ago`, or a weekday for the last day of that
 * name before `today`. Today's own weekday could be meant for today or for a week ago, and is refused.
 */
export function readDay(text: string, today: IsoDate): DayResult {
  const word = text.trim().toLowerCase()
  if (dayNumber(word) !== null) return { date: word }
  if (word === 'today') return { date: today }
  if (word === 'yesterday') return { date: addDays(today, -1) }
  const ago = /^(\d{1,3}) days? ago$/.exec(word)
  if (ago) return { date: addDays(today, -Number(ago[1])) }
  const weekday = word.length < 2 ? [] : WEEKDAYS.filter((name) => name.startsWith(word))
  if (weekday.length === 1) return lastWeekday(WEEKDAYS.indexOf(weekday[0]!), today, text)
  const loose = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(word)
  const iso = loose ? `${loose[1]}-${loose[2]!.padStart(2, '0')}-${loose[3]!.padStart(2, '0')}` : ''
  const help =
    iso && dayNumber(iso) !== null
      ? `write it as ${iso}`
      : `write year-month-day, like ${today}, or today, yesterday, or a weekday`
  return { fault: { message: `\`${text}\` is not a day`, help } }
}

function lastWeekday(wanted: number, today: IsoDate, text: string): DayResult {
  const weekdayToday = (((dayOf(today) + 4) % 7) + 7) % 7
  const back = (weekdayToday - wanted + 7) % 7
  if (back > 0) return { date: addDays(today, -back) }
  return {
    fault: {
      message: `\`${text}\` can mean today or a week ago`,
      help: `write today, or ${addDays(today, -7)}`,
    },
  }
}
