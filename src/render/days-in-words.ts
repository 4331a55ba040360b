import { calendarDay } from '../records/date.ts'
import { spokenDate } from '../records/spoken-date.ts'

/** An ISO date in a sentence: not part of a file name, and not quoted as text to write. */
const DAY = /(?<![\w/`-])\d{4}-\d{2}-\d{2}(?![\w`/]|-\w)/g

/** A sentence with its ISO dates as `Mon 15 Jun`, adding the year where it isn't the one given. */
export function daysInWords(sentence: string, year: string): string {
  return sentence.replace(DAY, (day) => {
    if (calendarDay(day) === null) return day
    return day.startsWith(year) ? spokenDate(day) : `${spokenDate(day)} ${day.slice(0, 4)}`
  })
}
