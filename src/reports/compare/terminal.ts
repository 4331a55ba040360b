import type { Report } from '../../facts/report.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { figure } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { listed, underAnswer, wrap } from '../../render/text.ts'
import { display } from '../../render/units.ts'
import type { CompareData, ComparedFigure } from './report.ts'

const IN_A_SENTENCE = 3

/** What changed most in one sentence, then every figure of every season, the most changed first. */
export function renderCompare(
  { data, cautions }: Report<CompareData>,
  names: ReadonlyMap<string, string>,
  style: Style,
): string {
  const { seasons, figures, upTo } = data
  if (figures.length === 0) return `Nothing is recorded in ${listed(seasons.map(String))} to compare.\n`
  const nameOf = (one: ComparedFigure) => placeName(one, names)
  const most = figures.filter(({ weight }) => weight !== null && weight > 0).slice(0, IN_A_SENTENCE)
  const [before, now] = seasons.slice(-2)
  const first =
    most.length === 0
      ? `Nothing that can be compared changed from ${before} to ${now}.`
      : `What changed most from ${before} to ${now}: ${most.map((one) => `${one.figure} (${nameOf(one)}) ${shownValue(one, -2, style.units)} -> ${shownValue(one, -1, style.units)}`).join('; ')}.`
  const part = upTo.some(({ whole }) => !whole)
    ? `\n${wrap(`Each season up to the same day, ${shortDate(upTo.at(-1)!.date)}.`, style.columns)}`
    : ''
  const table = renderTable(
    [
      { title: 'figure', most: 26 },
      { title: 'of', most: 12 },
      ...seasons.map((season) => ({ title: String(season), align: 'right' as const })),
      { title: 'change', align: 'right' },
    ],
    figures.map((one) => [
      one.figure,
      nameOf(one),
      ...one.values.map((_, index) => shownValue(one, index, style.units)),
      changeText(one, style.units),
    ]),
  )
  const lacking = unknownFigures(data, names)
  const noted = remarks(data, names)
  const below = [
    ...(noted.length === 0 ? [] : [`Note: ${noted.join('; ')}.`]),
    ...(lacking.length === 0 ? [] : [`Unknown: ${lacking.join('; ')}.`]),
  ]
    .map((text) => `\n${wrap(text, style.columns)}\n`)
    .join('')
  return underAnswer(`${wrap(first, style.columns)}${part}\n\n${table}${below}`, cautions, style.columns)
}

/** What a figure is of. */
export const placeName = ({ block }: ComparedFigure, names: ReadonlyMap<string, string>) =>
  block === null ? 'vineyard' : (names.get(block) ?? block)

/** Figures that a season lacks, each with the reason. */
export function unknownFigures({ figures }: CompareData, names: ReadonlyMap<string, string>): string[] {
  return figures.flatMap((one) =>
    one.values.flatMap(({ season, why }) =>
      why === null ? [] : [`${one.figure} (${placeName(one, names)}) ${season}: ${why}`],
    ),
  )
}

/** Figures that aren't as measured, each with what was done. */
export function remarks({ figures }: CompareData, names: ReadonlyMap<string, string>): string[] {
  return figures.flatMap((one) =>
    one.values.flatMap(({ season, remark }) =>
      remark ? [`${one.figure} (${placeName(one, names)}) ${season}: ${remark}`] : [],
    ),
  )
}

const QUANTITIES = new Set(['kg/ha', 'mm'])

/** A figure of one of the seasons. */
export function shownValue(one: ComparedFigure, index: number, units: Style['units']): string {
  const { value, date } = one.values.at(index)!
  if (value === null) return '-'
  if (one.unit === 'd') return shortDate(date!)
  return text(value, one.unit, units)
}

function text(value: number, unit: string, units: Style['units']): string {
  if (QUANTITIES.has(unit)) return display({ value, unit }, units)
  if (unit === '%') return `${figure(value, 0)} %`
  const decimals =
    unit === 'Brix' ? 1 : unit === 'Brix/d' ? 2 : unit === '' && !Number.isInteger(value) ? 1 : 0
  return `${figure(value, decimals)}${unit ? ` ${unit}` : ''}`
}

/** What the last season is more or less, later or earlier, than the one before it. */
export function changeText({ change, unit }: ComparedFigure, units: Style['units']): string {
  if (change === null) return '-'
  if (unit === 'd') return change === 0 ? 'same' : `${Math.abs(change)} d ${change < 0 ? 'earlier' : 'later'}`
  const size = text(Math.abs(change), unit, units)
  if (size === text(0, unit, units)) return size
  return `${change > 0 ? '+' : '-'}${size}`
}
