import { heatIn, heatUnit, inBookUnits } from '../../facts/book-units.ts'
import { groupedBy } from '../../facts/judged.ts'
import type { Report } from '../../facts/report.ts'
import { listed } from '../../facts/say.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { numbers } from '../../render/columns.ts'
import { figure } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { underAnswer, wrap } from '../../render/text.ts'
import { display } from '../../render/units.ts'
import type { CompareData, ComparedFigure } from './report.ts'

const IN_A_SENTENCE = 3

/** The biggest changes between the last two seasons in one sentence. */
export function mostChanged(
  { seasons, figures }: CompareData,
  { names, units, most }: { names: ReadonlyMap<string, string>; units: Style['units']; most: number },
): string {
  const [before, now] = seasons.slice(-2)
  const changed = figures.filter(({ weight }) => weight !== null && weight > 0).slice(0, most)
  if (changed.length === 0) return `Nothing that can be compared changed from ${before} to ${now}.`
  const said = changed.map(
    (one) =>
      `${figureName(one, units)} (${placeName(one, names)}), ${shownValue(one, -2, units)} to ${shownValue(one, -1, units)}`,
  )
  return `What changed most from ${before} to ${now}: ${said.join('; ')}.`
}

/** What changed most in one sentence, then every figure of every season, the most changed first. */
export function renderCompare(
  { data, cautions }: Report<CompareData>,
  names: ReadonlyMap<string, string>,
  style: Style,
): string {
  const { seasons, figures, upTo } = data
  if (figures.length === 0) return `Nothing is recorded in ${listed(seasons.map(String))} to compare.\n`
  const { units } = style
  const first = mostChanged(data, { names, units, most: IN_A_SENTENCE })
  const part = upTo.some(({ whole }) => !whole)
    ? `\n${wrap(`Each season counts up to ${shortDate(upTo.at(-1)!.date)}.`, style.columns)}`
    : ''
  const table = renderTable(
    [
      { title: 'figure', most: 26 },
      { title: 'block', most: 16 },
      ...seasons.map((season) => ({ title: String(season), number: true })),
      ...numbers('change'),
    ],
    figures.map((one) => [
      figureName(one, units),
      placeName(one, names),
      ...one.values.map((_, index) => shownValue(one, index, units)),
      changeText(one, units),
    ]),
  )
  const lacking = unknownFigures(data, names, units)
  const noted = remarks(data, names, units)
  const below = [
    ...(noted.length === 0 ? [] : ['', ...noted]),
    ...(lacking.length === 0 ? [] : ['', 'Unknown', ...lacking]),
  ]
    .map((text) => `${wrap(text, style.columns)}\n`)
    .join('')
  return underAnswer(`${wrap(first, style.columns)}${part}\n\n${table}${below}`, cautions, style.columns)
}

/** The block of a figure, or the vineyard. */
export const placeName = ({ block }: ComparedFigure, names: ReadonlyMap<string, string>) =>
  block === null ? 'vineyard' : (names.get(block) ?? block)

/** The name of a figure; an active substance by its own name, heat in the ledger's degrees. */
export const figureName = ({ figure }: ComparedFigure, units: Style['units']): string =>
  inBookUnits(figure.replace(/^active /, ''), units)

type Said = readonly [reason: string, figure: string, place: string]

/** A season's missing figures, grouped by reason. */
export function unknownFigures(
  { figures, seasons }: CompareData,
  names: ReadonlyMap<string, string>,
  units: Style['units'],
): string[] {
  const empty = seasons.filter((_, index) => figures.every(({ values }) => values[index]!.value === null))
  return [
    ...empty.map((season) => `${season}: nothing recorded.`),
    ...gathered(
      figures.flatMap((one) =>
        one.values.flatMap(({ season, why }): Said[] =>
          why === null || empty.includes(season)
            ? []
            : [[`${season}, ${why}`, figureName(one, units), placeName(one, names)]],
        ),
      ),
    ),
  ]
}

/** Figures that aren't as measured, grouped by what was done. */
export function remarks(
  { figures }: CompareData,
  names: ReadonlyMap<string, string>,
  units: Style['units'],
): string[] {
  return gathered(
    figures.flatMap((one) =>
      one.values.flatMap(({ season, remark }): Said[] =>
        remark ? [[`${season}, ${remark}`, figureName(one, units), placeName(one, names)]] : [],
      ),
    ),
  )
}

function gathered(said: readonly Said[]): string[] {
  return [...groupedBy(said, ([reason]) => reason)].map(([reason, rows]) => {
    const figures = [...groupedBy(rows, ([, figure]) => figure)].map(
      ([figure, places]) => `${figure} (${places.map(([, , place]) => place).join(', ')})`,
    )
    return `${reason}: ${figures.join('; ')}.`
  })
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
  if (unit === heatUnit('metric')) return `${figure(heatIn(value, units), 0)} ${heatUnit(units)}`
  if (unit === 'kg/h') return inBookUnits(`${figure(value, 0)} kg/h`, units)
  if (unit === '%') return `${figure(value, 0)} %`
  const decimals =
    unit === 'Brix' ? 1 : unit === 'Brix/d' ? 2 : unit === '' && !Number.isInteger(value) ? 1 : 0
  return `${figure(value, decimals)}${unit ? ` ${unit}` : ''}`
}

/** How much more or less, later or earlier, the last season is than the one before. */
export function changeText({ change, unit }: ComparedFigure, units: Style['units']): string {
  if (change === null) return '-'
  if (unit === 'd') return change === 0 ? 'same' : `${Math.abs(change)} d ${change < 0 ? 'earlier' : 'later'}`
  const size = text(Math.abs(change), unit, units)
  if (size === text(0, unit, units)) return size
  // From 4 % to 21 % is 17 percentage points, but more than four times as much.
  const told = unit === '%' ? size.replace(/^1 %$/, '1 point').replace(/ %$/, ' points') : size
  return `${change > 0 ? '+' : '-'}${told}`
}
