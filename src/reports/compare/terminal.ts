import { groupedBy } from '../../facts/judged.ts'
import { heatIn, heatUnit, inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Names } from '../../facts/names.ts'
import type { Report } from '../../facts/report.ts'
import { listed } from '../../facts/sentences.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { type Column, numbers, words } from '../../render/columns.ts'
import { figure } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { groupDigits, sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
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
  style: Style,
  { blocks: names }: Pick<Names, 'blocks'>,
): string {
  const { seasons, figures } = data
  if (figures.length === 0) return `Nothing is recorded in ${listed(seasons.map(String))} to compare.\n`
  const { units, columns } = style
  const part = partText(data)
  const { noted, lacking } = notesOf(data, names, units)
  const below = [
    ...(noted.length === 0 ? [] : ['', ...noted]),
    ...(lacking.length === 0 ? [] : ['', 'Unknown', ...lacking]),
  ]
  const first = sentences(mostChanged(data, { names, units, most: IN_A_SENTENCE }), part)
  const text = `${wrapAll(first, columns)}\n\n${renderTable(figures, figureColumns({ seasons, names, units }), style.columns)}${below.map((one) => `${wrap(one, columns)}\n`).join('')}`
  return underAnswer(text, cautions, columns)
}

/** Up to when each season counts; null where all are whole. */
export const partText = ({ upTo }: CompareData): string | null =>
  upTo.every(({ whole }) => whole) ? null : `Each season counts up to ${shortDate(upTo.at(-1)!.date)}.`

/** A table of figures: what and where, the value of each season, and the change. */
export const figureColumns = ({
  seasons,
  names,
  units,
}: {
  seasons: readonly number[]
  names: ReadonlyMap<string, string>
  units: Style['units']
}): Column<ComparedFigure, string>[] => [
  words('figure', (one) => figureName(one, units), 26),
  words('block', (one) => placeName(one, names), 16),
  ...seasons.map((season, index) =>
    numbers(String(season), (one: ComparedFigure) => shownValue(one, index, units)),
  ),
  numbers('change', (one) => changeText(one, units)),
]

/** The block of a figure, or the vineyard. */
const placeName = ({ block }: ComparedFigure, names: ReadonlyMap<string, string>) =>
  block === null ? 'vineyard' : (names.get(block) ?? block)

/** The name of a figure; an active substance by its own name, heat in the ledger's degrees. */
const figureName = ({ figure }: ComparedFigure, units: Style['units']): string =>
  inLedgerUnits(figure.replace(/^active /, ''), units)

type Said = readonly [reason: string, figure: string, place: string]

/** Figures that aren't as measured, by what was done; and what a season is missing, by the reason. */
export function notesOf(
  { figures, seasons }: CompareData,
  names: ReadonlyMap<string, string>,
  units: Style['units'],
): { noted: string[]; lacking: string[] } {
  const empty = seasons.filter((_, index) => figures.every(({ values }) => values[index]!.value === null))
  const grouped = (noteOf: (value: ComparedFigure['values'][number]) => string | null | undefined | false) =>
    gathered(
      figures.flatMap((one) =>
        one.values.flatMap((value): Said[] => {
          const note = noteOf(value)
          return note ? [[`${value.season}, ${note}`, figureName(one, units), placeName(one, names)]] : []
        }),
      ),
    )
  return {
    noted: grouped(({ remark }) => remark),
    lacking: [
      ...empty.map((season) => `${season}: nothing recorded.`),
      ...grouped(({ season, why }) => !empty.includes(season) && why),
    ],
  }
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
function shownValue(one: ComparedFigure, index: number, units: Style['units']): string {
  const { value, date } = one.values.at(index)!
  if (value === null) return '-'
  if (one.unit === 'd') return shortDate(date!)
  return text(value, one.unit, units)
}

function text(value: number, unit: string, units: Style['units']): string {
  if (QUANTITIES.has(unit)) return display({ value, unit }, units)
  if (unit === heatUnit('metric')) return `${groupDigits(figure(heatIn(value, units), 0))} ${heatUnit(units)}`
  if (unit === 'kg/h') return inLedgerUnits(`${figure(value, 0)} kg/h`, units)
  if (unit === '%') return `${figure(value, 0)} %`
  const decimals =
    unit === 'Brix' ? 1 : unit === 'Brix/d' ? 2 : unit === '' && !Number.isInteger(value) ? 1 : 0
  return `${figure(value, decimals)}${unit ? ` ${unit}` : ''}`
}

/** How much more or less, later or earlier, the last season is than the one before. */
function changeText({ change, unit }: ComparedFigure, units: Style['units']): string {
  if (change === null) return '-'
  if (unit === 'd') return change === 0 ? 'same' : `${Math.abs(change)} d ${change < 0 ? 'earlier' : 'later'}`
  const size = text(Math.abs(change), unit, units)
  if (size === text(0, unit, units)) return 'same'
  // From 4 % to 21 % is 17 percentage points, but more than four times as much.
  const told = unit === '%' ? size.replace(/^1 %$/, '1 point').replace(/ %$/, ' points') : size
  return `${change > 0 ? '+' : '-'}${told}`
}
