import { calendarDay } from '../records/date.ts'
import { spokenDate } from '../records/spoken-date.ts'

/** A day as files write it, standing in a sentence: not in a file's name, and not quoted as what to write. */
const DAY = /(?<![\w/`-])\d{4}-\d{2}-\d{2}(?![\w`/]|-\w)/g

/** A sentence with its days as people say them, `Mon 15 Jun`, with the year where it isn't the one given. */
export function daysInWords(sentence: string, year: string): string {
  return sentence.replace(DAY, (day) => {
    if (calendarDay(day) === null) return day
    return day.startsWith(year) ? spokenDate(day) : `${spokenDate(day)} ${day.slice(0, 4)}`
  })
}
