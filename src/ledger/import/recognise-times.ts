import { commonest } from '../weather/commonest.ts'
import { OFFSET } from '../weather/rows.ts'
import { timeForm } from '../weather/time.ts'
import { asClock, isBareTime, offsetIn } from './clock-text.ts'
import { datePartsOf, isClockName, timeOfParts } from './date-parts.ts'
import { orderOf } from './export-shape.ts'
import type { Answer, HeadedColumn, Recognising } from './recognised.ts'

type Form = ReturnType<typeof timeForm>

/** Finds the time columns by their cells, and how a row's time is read from them. */
export function takeTimes(work: Recognising): void {
  const { columns, shape, questions } = work
  const forms = columns.map(({ name, at }) => formOf(shape.rows, at, isClockName(name)))
  const like = (form: Form) => {
    const all = columns.filter(({ at }) => forms[at] === form)
    const local = all.filter(({ words }) => words.offset === null)
    return local.length > 0 ? local : all
  }
  const take = (column: HeadedColumn | undefined, as: 'time' | 'date') =>
    column && Object.assign(column, { as, by: 'values' })
  const [time, date] = [timeColumn(work, 'time'), timeColumn(work, 'date')]
  if (!time && !date) {
    const moments = like('moment')
    const which = moments.length > 0 ? moments : like('day')
    if (which.length > 1)
      questions.push({
        level: 'error',
        name: 'column-unclear',
        message: `${which.map(({ name }) => `\`${name}\``).join(' and ')} both hold times`,
        help: `say which it is: --columns "time=${which[0]!.name}"`,
        answers: which.map(({ name }) => ({ shown: name, columns: { time: name } })),
      })
    take(which[0], moments.length > 0 ? 'time' : 'date')
    if (moments.length === 0) take(like('clock')[0], 'time')
  }
  // A column of clock times or of days is only half of a time.
  else if (!time && forms[date!.at] === 'day') take(like('clock').find(isFree), 'time')
  else if (time && !date && forms[time.at] === 'clock') take(like('day').find(isFree), 'date')
  takeHours(work, forms)
  work.timeOf = takeParts(work) ?? timeReaderOf(work)
  for (const column of columns) if (forms[column.at] !== null && column.as === null) column.as = 'unused'
  takeOrder(work)
}

const isFree = ({ as }: HeadedColumn) => as === null

const timeColumn = ({ columns }: Recognising, as: 'time' | 'date') => columns.find((one) => one.as === as)

/** Takes a column of bare hours in addition to the date column: `Hour` with 0 to 23, or `HHMM` with 0 to 2345. */
function takeHours(work: Recognising, forms: readonly Form[]): void {
  if (!timeColumn(work, 'date') || timeColumn(work, 'time')) return
  const { columns, shape } = work
  const hours = columns.find(({ name, as, at }) => as === null && forms[at] === null && isClockName(name))
  if (!hours) return
  const isLong = isHhmm(shape, hours.at)
  if (shape.rows.slice(0, 200).every((row) => bareClock(row[hours.at] ?? '', isLong) !== null))
    Object.assign(hours, { as: 'time', by: 'heading' })
}

/** Whether a column of bare hours goes on with minutes, so that its `15` is a quarter past midnight. */
const isHhmm = ({ rows }: Recognising['shape'], at: number) =>
  rows.some((row) => /^\d{3,4}$/.test(row[at] ?? ''))

/** `7` and `730` as clock times, or `7` as `0007`; null where a text is neither. */
function bareClock(said: string, isLong: boolean): string | null {
  const text = isLong && /^\d+$/.test(said) ? said.padStart(4, '0') : said
  const match = text.length > 2 ? /^(\d{1,2})([0-5]\d)$/.exec(text) : /^(\d{1,2})$/.exec(text)
  if (!match || Number(match[1]) > 24) return null
  return `${match[1]!.padStart(2, '0')}:${match[2] ?? '00'}`
}

/** Takes the columns of a date in parts, where no other holds a time; those of year and hour stand for it. */
function takeParts(work: Recognising): Recognising['timeOf'] | null {
  const { columns, shape } = work
  const parts = timeColumn(work, 'time') || timeColumn(work, 'date') ? null : datePartsOf(shape.head.names)
  if (!parts) return null
  for (const at of [parts.month, parts.day, parts.minute]) if (at !== null) columns[at]!.as = 'unused'
  Object.assign(columns[parts.year]!, { as: 'date', by: 'heading' })
  if (parts.hour !== null) Object.assign(columns[parts.hour]!, { as: 'time', by: 'heading' })
  return (row) => timeOfParts(row, parts)
}

/** The time of a row from its date and clock columns, in a readable form. */
function timeReaderOf(work: Recognising): Recognising['timeOf'] {
  const [time, date] = [timeColumn(work, 'time'), timeColumn(work, 'date')]
  if (!time) return (row) => asClock(row[date?.at ?? -1] ?? '')
  if (!date) return (row) => asClock(row[time.at] ?? '')
  const isLong = isHhmm(work.shape, time.at)
  return (row) => {
    const said = asClock(row[time.at] ?? '', true)
    const clock = bareClock(said, isLong) ?? said
    return timeForm(clock) === 'clock' ? `${asClock(row[date.at] ?? '')} ${clock}`.trim() : clock
  }
}

/** What most filled cells of a column look like. */
function formOf(rows: readonly string[][], at: number, isClock: boolean): Form {
  const cells = rows.slice(0, 200).flatMap((row) => row[at] || [])
  // A number that never changes is not a time; it may be the station's number.
  if (cells.every((cell) => cell === cells[0] && isBareTime(cell)) && cells.length > 1) return null
  const [most] = commonest(cells.map((cell) => timeForm(asClock(cell, isClock))))
  return most && most[1] > cells.length * 0.8 ? most[0] : null
}

function takeOrder(work: Recognising): void {
  const { shape, how, mapping, questions, columns } = work
  const written = shape.rows.map(work.timeOf)
  const dates = written.filter((text) => /^\d+[-./]/.test(text))
  const order = how?.dates ?? orderOf(dates) ?? null
  if (order === null && dates.length > 0) {
    const { name } = columns.find(({ as }) => as === 'time' || as === 'date') ?? {}
    questions.push({
      level: 'error',
      name: 'date-unclear',
      message: `\`${dates[0]}\` in column \`${name}\` can be read with the day or the month first`,
      help: 'say which: --dates day-first, or --dates month-first',
      answers: [
        { shown: 'the day first', dates: 'day-first' },
        { shown: 'the month first', dates: 'month-first' },
      ],
    })
  }
  mapping.dates = order ?? 'iso'
  const clocks = written.map((text) => /\d{1,2}:\d{2}.*$/.exec(text)?.[0] ?? '')
  const isOnceADay = new Set(dates.map((text) => text.split(/[T ]/)[0])).size === shape.rows.length
  // A clock time that never changes only shows when the day was read.
  work.isDaily =
    clocks.every((clock) => clock === '') ||
    (shape.rows.length > 1 && isOnceADay && new Set(clocks).size === 1)
  const minutes = clocks.map((text) => {
    const [hour, minute = ''] = text.split(':')
    return Number(hour) * 60 + Number.parseInt(minute, 10)
  })
  const steps = minutes.map((one, at) => (at === 0 ? 0 : (Math.abs(one - minutes[at - 1]!) + 1440) % 1440))
  work.step = commonest(steps.filter((step) => step > 0))[0]?.[0] ?? null
}

/** The clock's UTC offset: as given, else from its heading. An offset named above the heading is asked about. */
export function offsetOf(work: Recognising, above: string): string | null {
  const said = work.how?.units?.time
  if (said !== undefined) {
    const offset = said === LOCAL ? null : offsetIn(said)
    if (said !== LOCAL && offset === null)
      work.questions.push({
        level: 'error',
        name: 'unknown-unit',
        message: `\`${said}\` is no clock`,
        help: `write the clock of its times: --column-units time=UTC, time=UTC+1 or time=${LOCAL}`,
      })
    return offset
  }
  const headed = work.columns.find(
    ({ as, words }) => (as === 'time' || as === 'date') && words.offset !== null,
  )
  if (headed) return headed.words.offset
  const hasOwn = work.shape.rows.slice(0, 1).some((row) => OFFSET.test(work.timeOf(row)))
  const named = /\b(?:UTC|GMT)\b(?:\s*[+\-\u2212]\s*\d{1,2}(?::?\d{2})?)?/.exec(above)?.[0]
  if (named === undefined || hasOwn || work.isDaily) return null
  const clock = named.replace(/\s+/g, '')
  const answer = (time: string, shown: string): Answer => ({ shown, units: { time } })
  work.questions.push({
    level: 'error',
    name: 'unit-unclear',
    message: `it says ${named} above its heading: its times may be by that clock, or by the vineyard's`,
    help: `say which: --column-units time=${clock}, or --column-units time=${LOCAL}`,
    answers: [answer(clock, clock), answer(LOCAL, "the vineyard's clock")],
  })
  return null
}

/** The option value for the vineyard's own clock. */
const LOCAL = 'local'
