import { timeForm } from '../weather/time.ts'
import { asClock, isBareTime } from './clock-text.ts'
import { type DateParts, datePartsOf, isClockName, timeOfParts } from './date-parts.ts'
import { orderOf } from './export-shape.ts'
import type { Recognising } from './recognised.ts'
import type { HeadingWords } from './weather-words.ts'

/** Finds the columns of the time by their cells. @returns where they stand */
export function takeTimes(work: Recognising): number[] {
  const { columns, shape, questions, words } = work
  const known = ['time', 'date'].map((as) => columns.findIndex((one) => one.as === as))
  const forms = columns.map(({ name }, at) => formOf(shape.rows, at, isClockName(name)))
  if (known.every((at) => at < 0)) {
    const moments = notUtc(
      forms.flatMap((form, at) => (form === 'moment' ? [at] : [])),
      words,
    )
    const days = forms.flatMap((form, at) => (form === 'day' ? [at] : []))
    const clocks = notUtc(
      forms.flatMap((form, at) => (form === 'clock' ? [at] : [])),
      words,
    )
    const which = moments.length > 0 ? moments : days
    if (which.length > 1)
      questions.push({
        level: 'error',
        name: 'column-unclear',
        message: `${which.map((at) => `\`${columns[at]!.name}\``).join(' and ')} both hold times`,
        help: `say which it is: --columns "time=${columns[which[0]!]!.name}"`,
      })
    const [first] = which
    if (first !== undefined)
      Object.assign(columns[first]!, { as: moments.length > 0 ? 'time' : 'date', by: 'values' })
    if (moments.length === 0 && clocks.length > 0)
      Object.assign(columns[clocks[0]!]!, { as: 'time', by: 'values' })
  } else if (known[0]! < 0 && forms[known[1]!] === 'day') {
    const clock = forms.findIndex((form, at) => form === 'clock' && columns[at]!.as === null)
    if (clock >= 0) Object.assign(columns[clock]!, { as: 'time', by: 'values' })
  }
  takeHours(work, forms)
  const parts = columns.some(({ as }) => as === 'time' || as === 'date')
    ? null
    : datePartsOf(shape.head.names)
  if (parts) takeParts(work, parts)
  for (const [at, form] of forms.entries())
    if (form !== null && columns[at]!.as === null) columns[at]!.as = 'unused'
  work.timeOf = parts ? (row) => timeOfParts(row, parts) : timeReaderOf(work)
  const times = columns.flatMap(({ as }, at) => (as === 'time' || as === 'date' ? [at] : []))
  takeOrder(work, times)
  return times
}

/** Takes a column of bare hours beside the one of the date: `Hour` with 0 to 23. */
function takeHours({ columns, shape }: Recognising, forms: readonly ReturnType<typeof timeForm>[]): void {
  const has = (as: 'time' | 'date') => columns.some((one) => one.as === as)
  if (!has('date') || has('time')) return
  const at = columns.findIndex(
    ({ name, as }, place) => as === null && forms[place] === null && isClockName(name),
  )
  const isHour = (cell: string | undefined) => /^\d{1,2}$/.test(cell ?? '') && Number(cell) <= 24
  if (at >= 0 && shape.rows.slice(0, 200).every((row) => isHour(row[at])))
    Object.assign(columns[at]!, { as: 'time', by: 'heading' })
}

/** Takes the columns of a date in parts: year and hour stand for it. */
function takeParts({ columns }: Recognising, parts: DateParts): void {
  for (const at of [parts.month, parts.day, parts.minute]) if (at !== null) columns[at]!.as = 'unused'
  Object.assign(columns[parts.year]!, { as: 'date', by: 'heading' })
  if (parts.hour !== null) Object.assign(columns[parts.hour]!, { as: 'time', by: 'heading' })
}

/** The time of a row from the columns of its date and its clock, in a form that is read. */
function timeReaderOf({ columns }: Recognising): Recognising['timeOf'] {
  const at = (as: 'time' | 'date') => columns.findIndex((one) => one.as === as)
  const [time, date] = [at('time'), at('date')]
  const cell = (row: readonly string[], place: number) =>
    asClock(row[place] ?? '', place === time && date >= 0)
  if (time < 0) return (row) => cell(row, date)
  return (row) => {
    const said = cell(row, time)
    const clock = date >= 0 && /^\d{1,2}$/.test(said) ? `${said.padStart(2, '0')}:00` : said
    return date >= 0 && timeForm(clock) === 'clock' ? `${cell(row, date)} ${clock}`.trim() : clock
  }
}

const notUtc = (places: number[], words: readonly HeadingWords[]) => {
  const local = places.filter((at) => !words[at]!.utc)
  return local.length > 0 ? local : places
}

/** What most filled cells of a column look like. */
function formOf(rows: readonly string[][], at: number, isClock: boolean): ReturnType<typeof timeForm> {
  const cells = rows.slice(0, 200).flatMap((row) => (row[at] ? [row[at]!] : []))
  // A number that never changes is no time: that of the station, say.
  if (cells.every((cell) => cell === cells[0] && isBareTime(cell)) && cells.length > 1) return null
  const forms = cells.map((cell) => timeForm(asClock(cell, isClock)))
  for (const form of ['moment', 'day', 'clock'] as const)
    if (cells.length > 0 && forms.filter((one) => one === form).length > cells.length * 0.8) return form
  return null
}

function takeOrder(work: Recognising, times: readonly number[]): void {
  const { shape, how, mapping, questions, columns } = work
  const written = shape.rows.map(work.timeOf)
  const dates = written.filter((text) => /^\d+[-./]/.test(text))
  const order = how?.dates ?? orderOf(dates) ?? null
  if (order === null && dates.length > 0)
    questions.push({
      level: 'error',
      name: 'date-unclear',
      message: `\`${dates[0]}\` in column \`${columns[times[0]!]?.name}\` can be read with the day or the month first`,
      help: 'say which: --dates day-first, or --dates month-first',
    })
  mapping.dates = order ?? 'iso'
  const clocks = written.map((text) => /\d{1,2}:\d{2}.*$/.exec(text)?.[0] ?? '')
  const isOnceADay = new Set(dates.map((text) => text.split(/[T ]/)[0])).size === shape.rows.length
  // A clock that never moves only says when the day was read.
  work.isDaily =
    clocks.every((clock) => clock === '') ||
    (shape.rows.length > 1 && isOnceADay && new Set(clocks).size === 1)
  work.step = stepOf(clocks)
}

/** Minutes from one row to the next, as most rows have it; null where they have no clock. */
function stepOf(clocks: readonly string[]): number | null {
  const counts = new Map<number, number>()
  for (let at = 1; at < clocks.length; at++) {
    const [one, other] = [clocks[at - 1]!, clocks[at]!].map((text) => {
      const [hour, minute] = text.split(':')
      return Number(hour) * 60 + Number.parseInt(minute ?? '', 10)
    })
    const step = (Math.abs(other! - one!) + 1440) % 1440
    if (step > 0) counts.set(step, (counts.get(step) ?? 0) + 1)
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null
}
