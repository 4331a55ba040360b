import { OFFSET } from '../weather/rows.ts'
import { timeForm } from '../weather/time.ts'
import { offsetIn } from './clock-offset.ts'
import { asClock, isBareTime } from './clock-text.ts'
import { type DateParts, datePartsOf, isClockName, timeOfParts } from './date-parts.ts'
import { orderOf } from './export-shape.ts'
import type { Recognising } from './recognised.ts'
import type { HeadingWords } from './weather-words.ts'

/** Finds the time columns by their cells. @returns their indexes */
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
        answers: which.map((at) => ({ shown: columns[at]!.name, columns: { time: columns[at]!.name } })),
      })
    const [first] = which
    if (first !== undefined)
      Object.assign(columns[first]!, { as: moments.length > 0 ? 'time' : 'date', by: 'values' })
    if (moments.length === 0 && clocks.length > 0)
      Object.assign(columns[clocks[0]!]!, { as: 'time', by: 'values' })
  } else {
    // A column of clock times or of days is only half of a time.
    const [wanted, as] =
      known[0]! < 0 && forms[known[1]!] === 'day'
        ? (['clock', 'time'] as const)
        : known[1]! < 0 && forms[known[0]!] === 'clock'
          ? (['day', 'date'] as const)
          : [null, null]
    const other = forms.findIndex((form, at) => form === wanted && columns[at]!.as === null)
    if (wanted && other >= 0) Object.assign(columns[other]!, { as, by: 'values' })
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

/** Takes a column of bare hours in addition to the date column: `Hour` with 0 to 23, or `HHMM` with 0 to 2345. */
function takeHours({ columns, shape }: Recognising, forms: readonly ReturnType<typeof timeForm>[]): void {
  const has = (as: 'time' | 'date') => columns.some((one) => one.as === as)
  if (!has('date') || has('time')) return
  const at = columns.findIndex(
    ({ name, as }, place) => as === null && forms[place] === null && isClockName(name),
  )
  if (
    at >= 0 &&
    shape.rows.slice(0, 200).every((row) => bareClock(row[at] ?? '', isHhmm(shape, at)) !== null)
  )
    Object.assign(columns[at]!, { as: 'time', by: 'heading' })
}

/** Whether a column of bare hours goes on with minutes, so that its `15` is a quarter past midnight. */
const isHhmm = ({ rows }: Recognising['shape'], at: number) =>
  rows.some((row) => /^\d{3,4}$/.test(row[at] ?? ''))

/** `7` and `730` as clock times, or `7` as `0007`; null where a text is neither. */
function bareClock(said: string, isLong: boolean): string | null {
  const text = isLong && /^\d+$/.test(said) ? said.padStart(4, '0') : said
  const match = /^(\d{1,2}?)([0-5]\d)?$/.exec(text)
  if (!match || (match[2] === undefined && text.length > 2)) return null
  const [hour, minute] = text.length > 2 ? [match[1]!, match[2]!] : [text, '00']
  return Number(hour) <= 24 ? `${hour.padStart(2, '0')}:${minute}` : null
}

/** Takes the columns of a date in parts; the year and hour columns represent it. */
function takeParts({ columns }: Recognising, parts: DateParts): void {
  for (const at of [parts.month, parts.day, parts.minute]) if (at !== null) columns[at]!.as = 'unused'
  Object.assign(columns[parts.year]!, { as: 'date', by: 'heading' })
  if (parts.hour !== null) Object.assign(columns[parts.hour]!, { as: 'time', by: 'heading' })
}

/** The time of a row from its date and clock columns, in a readable form. */
function timeReaderOf({ columns, shape }: Recognising): Recognising['timeOf'] {
  const at = (as: 'time' | 'date') => columns.findIndex((one) => one.as === as)
  const [time, date] = [at('time'), at('date')]
  const cell = (row: readonly string[], place: number) =>
    asClock(row[place] ?? '', place === time && date >= 0)
  if (time < 0) return (row) => cell(row, date)
  const isLong = isHhmm(shape, time)
  return (row) => {
    const said = cell(row, time)
    const clock = (date >= 0 ? bareClock(said, isLong) : null) ?? said
    return date >= 0 && timeForm(clock) === 'clock' ? `${cell(row, date)} ${clock}`.trim() : clock
  }
}

const notUtc = (places: number[], words: readonly HeadingWords[]) => {
  const local = places.filter((at) => words[at]!.offset === null)
  return local.length > 0 ? local : places
}

/** What most filled cells of a column look like. */
function formOf(rows: readonly string[][], at: number, isClock: boolean): ReturnType<typeof timeForm> {
  const cells = rows.slice(0, 200).flatMap((row) => (row[at] ? [row[at]!] : []))
  // A number that never changes is not a time; it may be the station's number.
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
      answers: [
        { shown: 'the day first', dates: 'day-first' },
        { shown: 'the month first', dates: 'month-first' },
      ],
    })
  mapping.dates = order ?? 'iso'
  const clocks = written.map((text) => /\d{1,2}:\d{2}.*$/.exec(text)?.[0] ?? '')
  const isOnceADay = new Set(dates.map((text) => text.split(/[T ]/)[0])).size === shape.rows.length
  // A clock time that never changes only shows when the day was read.
  work.isDaily =
    clocks.every((clock) => clock === '') ||
    (shape.rows.length > 1 && isOnceADay && new Set(clocks).size === 1)
  work.step = stepOf(clocks)
}

/** Usual minutes between rows; null where there are no clock times. */
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

/** The clock's UTC offset: as given, else from its heading. An offset named above the heading is asked about. */
export function offsetOf(work: Recognising, times: readonly number[], above: string): string | null {
  const said = work.how?.units?.time
  if (said !== undefined) {
    if (said !== LOCAL && offsetIn(said) === null)
      work.questions.push({
        level: 'error',
        name: 'unknown-unit',
        message: `\`${said}\` is no clock`,
        help: `write the clock of its times: --column-units time=UTC, time=UTC+1 or time=${LOCAL}`,
      })
    return said === LOCAL ? null : offsetIn(said)
  }
  const headed = times.map((at) => work.words[at]!.offset).find((offset) => offset !== null)
  if (headed) return headed
  const hasOwn = work.shape.rows.slice(0, 1).some((row) => OFFSET.test(work.timeOf(row)))
  const named = /\b(?:UTC|GMT)\b(?:\s*[+\-\u2212]\s*\d{1,2}(?::?\d{2})?)?/.exec(above)?.[0]
  if (named === undefined || hasOwn || work.isDaily) return null
  const clock = named.replace(/\s+/g, '')
  work.questions.push({
    level: 'error',
    name: 'unit-unclear',
    message: `it says ${named} above its heading: its times may be by that clock, or by the vineyard's`,
    help: `say which: --column-units time=${clock}, or --column-units time=${LOCAL}`,
    answers: [
      { shown: clock, units: { time: clock } },
      { shown: "the vineyard's clock", units: { time: LOCAL } },
    ],
  })
  return null
}

/** The option value for the vineyard's own clock. */
const LOCAL = 'local'
