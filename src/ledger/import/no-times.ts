import { isoDate } from '../../records/date.ts'
import { longDate } from '../../records/spoken-date.ts'

/** Day 0 of spreadsheets, as a day since 1970: 30 December 1899. */
const SPREADSHEET_DAY_0 = -25_569

/** Number of lines searched. */
const MOST_LINES = 60

/** Why no time was found in an export, and how to write it instead. */
export function whyNoTimes(text: string): { message: string; help: string } {
  const lines = text.split(/\r?\n/, MOST_LINES)
  const serial = /(?:^|[;,\t| "])([34567]\d{4}(?:[.,]\d+)?)(?=$|[;,\t| "])/
  const isDated = lines.some((line) => /date|time|stamp|datum|zeit|fecha|data\b|heure|tijd/i.test(line))
  const numbers = lines.flatMap((line) => serial.exec(line)?.[1] ?? [])
  if (
    isDated &&
    numbers.length > 0 &&
    numbers.length >= lines.filter((line) => line.trim() !== '').length / 2
  ) {
    const day = isoDate(SPREADSHEET_DAY_0 + Number.parseInt(numbers[0]!, 10))
    return {
      message: `its times are numbers as a spreadsheet stores them: ${numbers[0]} is ${longDate(day)}`,
      help: 'in the spreadsheet, format that column as yyyy-mm-dd hh:mm, and export it again',
    }
  }
  if (lines.some((line) => /\bdoy\b|julian|\byday\b|day ?of ?(?:the ?)?year|\bjday\b/i.test(line)))
    return {
      message: 'its days are counted from the start of the year: 161 is 10 June, or 9 June in a leap year',
      help: 'export it with dates like 2026-06-10, or add a column of them in a spreadsheet: =DATE(2026,1,161)',
    }
  return {
    message: 'no column of times or dates was found in it',
    help: 'export it again with a heading line, and times like 2026-06-14T13:00 or 14.06.2026 13:00, or dates like 2026-06-14',
  }
}
