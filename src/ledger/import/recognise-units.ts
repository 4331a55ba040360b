import { type Measured, READINGS } from '../weather/columns.ts'
import { readDecimal } from '../weather/decimal.ts'
import { NOTHING } from '../weather/rows.ts'
import { isCounter, temperatureUnit, UNIT_OF } from './reading-units.ts'
import { type HeadedColumn, type Recognising, readingOf } from './recognised.ts'

export function numberIn({ mark }: Recognising, text: string): number | null {
  const value = readDecimal(text, mark === 'comma' ? ',' : '.')
  return Number.isNaN(value) ? null : value
}

/** The numbers of a column, in the order of the rows. */
export const numbersOf = (work: Recognising, at: number): number[] =>
  work.shape.rows.flatMap((row) => numberIn(work, row[at] ?? '') ?? [])

/** The unit of each column: as given, else from its heading, else from its values where they leave no doubt. */
export function takeUnits(work: Recognising): void {
  for (const column of work.columns) {
    const as = readingOf(column)
    if (as !== null) takeUnit(work, column, as)
  }
}

function takeUnit(work: Recognising, column: HeadedColumn, as: Measured): void {
  const { how, mapping, questions, shape } = work
  const { at, by, name, words } = column
  const values = numbersOf(work, at)
  const first = shape.rows.map((row) => row[at] ?? '').find((cell) => !NOTHING.has(cell.toLowerCase()))
  if (values.length === 0 && first !== undefined) {
    questions.push({
      level: 'error',
      name: 'bad-cell',
      message: `column \`${name}\` looks like ${as}, and holds no number: \`${first.slice(0, 20)}\` is the first`,
      help: `export it as plain numbers, say --decimal comma or point, or leave it out: --columns "${as}=none"`,
    })
    return
  }
  const typed = how?.units?.[as]
  if (typed === undefined && askSize(work, column, as)) return
  const said = typed ?? (by === 'name' ? (mapping.units?.[as] ?? READINGS[as].unit) : undefined)
  const found = said ?? unitOf(as, work, column, values)
  if (typeof found === 'string')
    Object.assign(column, { unit: found, unitAssumed: said === undefined && words.unit === null })
  else {
    questions.push(found)
    if (found.level === 'warning') column.as = 'unused'
  }
}

function unitOf(key: Measured, work: Recognising, { name, words: { unit } }: HeadedColumn, values: number[]) {
  const { isDaily, units } = work
  const isDegrees = READINGS[key].unit === 'C'
  // A station that records °F records inches, and °F in all its columns.
  const isF = (key === 'rain' || (isDegrees && unit === null)) && hasFahrenheit(work)
  if (isF && isDegrees) return 'F'
  return UNIT_OF[key]({ key, name, unit, values, isDaily, units: isF ? 'us' : units })
}

/** Asks what one count is worth where the heading gives an unusual size: gauge tips, tenths. */
function askSize({ questions }: Recognising, { name, words }: HeadedColumn, as: Measured): boolean {
  const { each, isTips } = words
  if (each === null && !isTips) return false
  const [size, unit] = [each ?? '0.2 mm', READINGS[as].unit]
  const say = (text: string) => `--column-units "${as}=${text}"`
  questions.push({
    level: 'error',
    name: 'unit-unclear',
    message: isTips
      ? `column \`${name}\` seems to count tips of the rain gauge, not mm`
      : `column \`${name}\` reads like steps of ${size.replace(/ ([CF])$/, ' °$1')}`,
    help: `say which: ${say(size)} if each is worth ${size}${each === null ? ' (see the gauge)' : ''}, or ${say(unit)}`,
    answers: [
      { shown: `each is worth ${size}`, units: { [as]: size } },
      { shown: `${unit} already`, units: { [as]: unit } },
    ],
  })
  return true
}

/** Whether a temperature in the file is °F: a station uses one unit for all. */
const hasFahrenheit = (work: Recognising): boolean =>
  work.columns.some((column) => {
    const key = readingOf(column)
    if (key === null || READINGS[key].unit !== 'C') return false
    const { name, at, words } = column
    return temperatureUnit({ ...work, key, name, unit: words.unit, values: numbersOf(work, at) }) === 'F'
  })

/** Whether the rain is a running total. Asks where it looks like one. */
export function countsRain(work: Recognising): boolean {
  const column = work.columns.find(({ as }) => as === 'rain')
  if (!column || work.isDaily || work.rain === 'each') return false
  if (work.rain === 'counter') return true
  const { name, by, at, words } = column
  const isHourly = words.counts === 'hour' && work.step !== null && work.step < 60
  const values = () =>
    work.shape.rows.map((row) => ({
      day: work.timeOf(row).split(/[T ]/)[0]!,
      value: numberIn(work, row[at] ?? ''),
    }))
  if (isHourly || (words.counts === 'day' && by !== 'said') || isCounter(values()))
    work.questions.push({
      level: 'error',
      name: 'rain-counts-up',
      message: isHourly
        ? `column \`${name}\` is the rain of the last hour, and its rows are ${work.step} minutes apart: added up it would count each shower many times`
        : `column \`${name}\` looks like a running total, which counts up from row to row: added up it would count each shower many times`,
      help: isHourly
        ? 'export the rain of each row, or rows of an hour; if it is the rain of each row all the same, add --rain each'
        : 'add --rain counter to take the rise from row to row, or --rain each if it is the rain of each row',
      answers: [
        { shown: 'the rain of each row', rain: 'each' },
        ...(isHourly ? [] : [{ shown: 'a running total: take the rise', rain: 'counter' as const }]),
      ],
    })
  return false
}

/** A unit that is not a multiple of ours: the unit after scaling, and how to scale. */
interface Scale {
  unit: string
  scale: (value: number) => number
}

/** The worth of one count, such as `0.2 mm` for each tip of a rain gauge. */
const EACH = /^(\d+(?:\.\d+)?) ?([a-zA-Z]+)$/

/**
 * How to scale figures in an unusual unit; null where the unit is one of `READINGS`, or unknown.
 * @param step minutes from one row to the next
 */
export function scaleOf(as: Measured, unit: string, step: number | null): Scale | null {
  if (as === 'wind' && unit === 'Bft') return { unit: 'm/s', scale: beaufort }
  if (as === 'wetness' && (unit === '%' || unit === 'share') && step !== null) {
    const whole = unit === '%' ? 100 : 1
    return {
      unit: 'min',
      scale: (value) => (value > whole ? Number.POSITIVE_INFINITY : (value / whole) * step),
    }
  }
  const each = EACH.exec(unit)
  if (!each || !READINGS[as].units.includes(each[2]!)) return null
  return { unit: each[2]!, scale: (value) => value * Number(each[1]) }
}

/**
 * Wind speed of a Beaufort force, m/s: about the middle of its class.
 * Source: WMO-No. 8, Guide to Instruments and Methods of Observation (2018), part I, chapter 5, and code table 1100 of
 * WMO-No. 306 have the bounds of the classes; v = 0.836 B^1.5 is the WMO's formula of 1946. From memory.
 */
const beaufort = (force: number): number =>
  force > HIGHEST_FORCE ? Number.POSITIVE_INFINITY : 0.836 * force ** 1.5
const HIGHEST_FORCE = 12
