import { type Measured, READINGS } from '../weather/columns.ts'
import { readDecimal } from '../weather/decimal.ts'
import { NOTHING } from '../weather/rows.ts'
import { humidityUnit, isCounter, rainUnit, temperatureUnit, wetnessUnit, windUnit } from './reading-units.ts'
import type { Recognised, Recognising } from './recognised.ts'
import { scaleOf } from './scale.ts'

export function numberIn({ mark }: Recognising, text: string): number | null {
  const value = readDecimal(text, mark === 'comma' ? ',' : '.')
  return Number.isNaN(value) ? null : value
}

/** The numbers of a column, in the order of the rows. */
export const numbersOf = (work: Recognising, at: number): number[] =>
  work.shape.rows.flatMap((row) => numberIn(work, row[at] ?? '') ?? [])

/** The unit of each column: as given, else from its heading, else from its values where they leave no doubt. */
export function takeUnits(work: Recognising): void {
  for (const [at, column] of work.columns.entries()) {
    const { as } = column
    if (as === null || as === 'unused' || as === 'time' || as === 'date') continue
    const values = numbersOf(work, at)
    const first = work.shape.rows.map((row) => row[at] ?? '').find((cell) => !NOTHING.has(cell.toLowerCase()))
    if (values.length === 0 && first !== undefined) {
      work.questions.push({
        level: 'error',
        name: 'bad-cell',
        message: `column \`${column.name}\` looks like ${as}, and holds no number: \`${first.slice(0, 20)}\` is the first`,
        help: `export it as plain numbers, say --decimal comma or point, or leave it out: --columns "${as}=none"`,
      })
      continue
    }
    if (work.how?.units?.[as] === undefined && askSize(work, at, as)) continue
    const said =
      work.how?.units?.[as] ??
      (column.by === 'name' ? (work.mapping.units?.[as] ?? READINGS[as].unit) : undefined)
    const found = said === undefined ? unitOf(as, work, at, values) : { unit: said }
    if ('question' in found) {
      work.questions.push({ name: 'unit-unclear', ...found.question })
      column.as = found.question.level === 'warning' ? 'unused' : as
    } else
      Object.assign(column, {
        unit: found.unit,
        unitAssumed: said === undefined && work.words[at]!.unit === null,
      })
  }
}

function unitOf(as: Measured, work: Recognising, at: number, values: readonly number[]) {
  const { unit } = work.words[at]!
  const { name } = work.columns[at]!
  const about = { key: as, name, unit, values, isDaily: work.isDaily, units: work.units }
  // A station that records °F records inches.
  if (as === 'rain') return rainUnit(hasFahrenheit(work) ? { ...about, units: 'us' } : about)
  if (as === 'humidity') return humidityUnit(about)
  if (as === 'wind') return windUnit(about)
  if (as === 'wetness') return wetnessUnit(about)
  return unit === null && hasFahrenheit(work) ? { unit: 'F' } : temperatureUnit(about)
}

/** Asks what one count is worth where the heading gives an unusual size: gauge tips, tenths. */
function askSize({ words, columns, questions }: Recognising, at: number, as: Measured): boolean {
  const { each, isTips } = words[at]!
  if (each === null && !isTips) return false
  const { name } = columns[at]!
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

/** Whether another temperature in the file is °F: a station uses one unit for all. */
const hasFahrenheit = (work: Recognising): boolean =>
  work.columns.some(({ as, name }, at) => {
    if (as !== 'temperature' && as !== 'min' && as !== 'max' && as !== 'mean') return false
    const { unit } = work.words[at]!
    const { isDaily, units } = work
    const found = temperatureUnit({ key: as, name, unit, values: numbersOf(work, at), isDaily, units })
    return 'unit' in found && found.unit === 'F'
  })

/** Whether the rain is a running total. Asks where it looks like one. */
export function countsRain(work: Recognising): boolean {
  const at = work.columns.findIndex(({ as }) => as === 'rain')
  if (at < 0 || work.isDaily || work.rain === 'each') return false
  if (work.rain === 'counter') return true
  const { name, by } = work.columns[at]!
  const { counts } = work.words[at]!
  const isHourly = counts === 'hour' && work.step !== null && work.step < 60
  if (isHourly || (counts === 'day' && by !== 'said') || isCounter(countable(work, at)))
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

const countable = (work: Recognising, at: number) =>
  work.shape.rows.map((row) => ({
    day: work.timeOf(row).split(/[T ]/)[0]!,
    value: numberIn(work, row[at] ?? ''),
  }))

/** How to scale columns in unusual units. */
export function scalesOf({ columns, isDaily, step }: Recognising): Recognised['scale'] {
  const scales: Recognised['scale'] = {}
  for (const { as, unit } of columns) {
    if (as === null || as === 'unused' || as === 'time' || as === 'date' || unit === null) continue
    const scaled = scaleOf(as, unit, minutesOf({ isDaily, step }))
    if (scaled) scales[as] = scaled.scale
  }
  return scales
}

/** Minutes covered by a row. */
const minutesOf = ({ isDaily, step }: Pick<Recognising, 'isDaily' | 'step'>) => (isDaily ? 1440 : step)

/** The unit of a column's figures after scaling. */
export const unitRead = (work: Recognising, key: Measured, unit: string): string =>
  scaleOf(key, unit, minutesOf(work))?.unit ?? unit
