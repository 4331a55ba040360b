import { unitShown } from '../../ledger/import/reading-units.ts'
import { type ReadColumn, readingOf } from '../../ledger/import/recognised.ts'
import { READINGS } from '../../ledger/weather/columns.ts'
import { convert } from '../../records/units.ts'
import { numbers, words } from '../../render/columns.ts'
import { daysInWords } from '../../render/days-in-words.ts'
import { orDash } from '../../render/figure.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, sentences, wrap } from '../../render/text.ts'
import type { WeatherRead } from './weather-read.ts'

const BY = {
  said: 'as you said',
  name: 'by its name',
  heading: 'by its heading',
  values: 'by its values',
} as const

/** Gaps that are reported one by one. */
const MOST_GAPS = 3

/** °C, mm and m/s in the units of the ledger, where these are others. */
const CUSTOMARY: Readonly<Record<string, string>> = { C: 'F', mm: 'in', 'm/s': 'mph' }

const shownUnit = (unit: string, { units }: Style) => (units === 'metric' ? unit : (CUSTOMARY[unit] ?? unit))

/** The unit in which a ledger shows what is kept in another one. */
function unitOf(unit: string, style: Style): string {
  const shown = shownUnit(unit, style)
  return shown === 'C' || shown === 'F' ? `°${shown}` : shown
}

const figureOf = (value: number, unit: string, style: Style, decimals = 2): string =>
  String(Number(convert(value, unit, shownUnit(unit, style)).toFixed(decimals)))

/** A reading in the units of the ledger. */
export const shownReading = (value: number, unit: string, style: Style): string =>
  `${figureOf(value, unit, style)} ${unitOf(unit, style)}`

/**
 * What was read from an export, to look over: columns, first and last rows, span, gaps and extremes.
 * @param year of the days that need no year
 */
export function renderWeatherRead(read: WeatherRead, style: Style, year: string): string {
  const { columns } = read
  const used = columns.filter(({ as }) => as !== null && as !== 'unused')
  const unused = columns.filter(({ as }) => as === 'unused')
  const parts = sentences(
    wrap(`${safeLine(read.file)}: ${daysInWords(span(read), year)}`, style.columns),
    used.map((one) => `  ${safeLine(one.name)}: ${meaning(one)}`).join('\n'),
    unused.length > 0 &&
      wrap(`Not used: ${unused.map(({ name }) => safeLine(name)).join(', ')}.`, style.columns),
    rowsTable(read, style, year).trimEnd(),
    extremes(read, style),
    notes(read).map((note) => wrap(daysInWords(note, year), style.columns)),
  )
  return `${parts.join('\n\n')}\n`
}

function span({ rows, step, entries, from, to }: WeatherRead): string {
  const what =
    step === null
      ? counted(entries, 'day')
      : step === 60
        ? counted(rows, 'hourly row')
        : step < 60
          ? `${counted(rows, 'row')} every ${step} minutes, made into ${counted(entries, 'hour')}`
          : `${counted(rows, 'row')} every ${step / 60} hours`
  return from === null ? 'no row.' : `${what}, ${from} to ${to}.`
}

function meaning(column: ReadColumn): string {
  const { as, unit, unitAssumed, by } = column
  const reading = readingOf(column)
  const named = unit !== null && reading !== null ? `${unitShown(unit, reading)}${SCALED[unit] ?? ''}` : null
  const assumed = unitAssumed && unit !== '%' ? '; unit not named, judged by the values' : ''
  return `${as}${named ? `, ${named}` : ''}${by === null ? '' : ` (${BY[by]}${named ? assumed : ''})`}`
}

/** What figures of such a unit are taken for. */
const SCALED: Readonly<Record<string, string>> = { Bft: ', each force as the middle of its class in m/s' }

function rowsTable({ first, last }: WeatherRead, style: Style, year: string): string {
  const keys = Object.keys(first[0]?.readings ?? {}) as (keyof typeof READINGS)[]
  if (keys.length === 0) return ''
  return renderTable(
    [...first, ...last],
    [
      words('first and last', ({ time }) => daysInWords(time, year)),
      ...keys.map((key) => {
        const { unit } = READINGS[key]
        return numbers(`${key}\n${unitOf(unit, style)}`, ({ readings }: (typeof first)[number]) =>
          orDash(readings[key] ?? null, (value) => figureOf(value, unit, style)),
        )
      }),
    ],
    style.columns,
  )
}

function extremes({ extremes, entries }: WeatherRead, style: Style): string {
  return extremes
    .map(({ what, unit, low, high, sum, known }) => {
      const lacks = known < entries ? `; unknown in ${entries - known} of ${entries}` : ''
      const figure = (value: number) => figureOf(value, unit, style, unit === 'mm' ? 2 : 1)
      const named = unitOf(unit, style)
      const total = sum === null ? '' : `, ${figure(sum)} ${named} in all`
      return `  ${what}: ${figure(low)} to ${figure(high)} ${named}${total}${lacks}`
    })
    .join('\n')
}

function notes({ gaps, cut, empty, partly, twice, step, offset }: WeatherRead): string[] {
  const unit = step === null ? 'day' : 'hour'
  const missing = gaps.reduce((sum, one) => sum + one.missing, 0)
  const some = gaps.slice(0, MOST_GAPS).map(({ from, to }) => (from === to ? from : `${from} to ${to}`))
  const more = gaps.length > MOST_GAPS ? `, and ${counted(gaps.length - MOST_GAPS, 'more gap')}` : ''
  return sentences(
    offset !== null &&
      `Its times are in ${offset === 'Z' ? 'UTC' : `UTC${offset}`}. Here they are in the vineyard's time.`,
    missing > 0 && `Missing: ${counted(missing, unit)} (${some.join('; ')}${more}). They stay unknown.`,
    step !== null &&
      step < 60 &&
      `An hour's temperature, humidity and wind are means of at least three quarters of its readings. Its rain and leaf wetness are sums, and unknown where a reading is missing.`,
    step !== null &&
      step > 60 &&
      `Its rows are ${step / 60} hours apart: each is kept at its own hour, and the hours between stay unknown. Export hourly or daily rows where you can.`,
    partly > 0 && `${counted(partly, 'hour')} with something unknown.`,
    empty > 0 && `Left out: ${counted(empty, 'hour')} without any usable reading.`,
    twice > 0 && `Left out: ${counted(twice, 'row')} with the same time as a row above.`,
    cut.length > 0 && `Incomplete, left for the next export: ${cut.join(', ')}.`,
  )
}
