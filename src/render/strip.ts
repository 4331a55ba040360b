import { highest } from '../agronomy/statistics/extremes.ts'
import type { DayChart } from '../facts/charts/day-chart.ts'
import { addDays } from '../records/date.ts'
import { shortDate } from '../records/spoken-date.ts'
import type { Style } from './style.ts'
import { sentences, wrap } from './text.ts'

const BLOCKS = '▁▂▃▄▅▆▇█'
/** Drawn for a day without a value. */
const UNKNOWN_DAY = '·'

/** How days map to characters: a fixed number for each, counted from the first day. */
interface Grid {
  from: string
  days: number
  perCharacter: number
  width: number
}

/** The grid that fits all days into the given width. */
export function gridOf(from: string, days: number, room: number): Grid {
  const perCharacter = Math.max(1, Math.ceil(days / Math.max(10, room)))
  return { from, days, perCharacter, width: Math.ceil(days / perCharacter) }
}

/** A chart as one line of block characters, each of one day or of a few; unknown days as dots. */
export function strip(chart: Pick<DayChart, 'values' | 'low' | 'high' | 'combine'>, grid: Grid): string {
  return cells(chart.values, grid)
    .map((some) => {
      const known = some.filter((value) => value !== null)
      if (known.length === 0) return UNKNOWN_DAY
      const value =
        chart.combine === 'greatest'
          ? highest(known)
          : known.reduce((sum, one) => sum + one, 0) / known.length
      return blockOf(value, chart)
    })
    .join('')
}

/** The block character for a value's height on a scale; the middle one where the scale has no height. */
export function blockOf(value: number, { low, high }: Pick<DayChart, 'low' | 'high'>): string {
  const share = high === low ? 0.5 : (value - low) / (high - low)
  return BLOCKS[Math.max(0, Math.min(BLOCKS.length - 1, Math.floor(share * BLOCKS.length)))]!
}

/** The width of names in front of lines. */
export const nameWidth = (names: readonly string[]): number =>
  Math.min(24, highest(names.map((name) => name.length)) + 2)

/** A name in front of a line, cut and filled to a width. */
export const nameCell = (name: string, width: number): string =>
  [...name]
    .slice(0, width - 2)
    .join('')
    .padEnd(width)

/** Words as one line of characters: the worst of the days that share a character, by the order of `ranks`. */
export function wordStrip<Word extends string>(
  words: readonly (Word | null)[],
  grid: Grid,
  ranks: readonly { word: Word; sign: string }[],
): string {
  return cells(words, grid)
    .map((some) => {
      const worst = ranks.findLast(({ word }) => some.includes(word))
      return worst?.sign ?? UNKNOWN_DAY
    })
    .join('')
}

/** The first day and the first of each month under a strip, where there is room for their names. */
function months({ from, days, perCharacter, width }: Grid): string {
  const starts = Array.from({ length: width * perCharacter }, (_, day) => ({
    day,
    date: addDays(from, day),
  })).filter(({ day, date }) => day === 0 || date.endsWith('-01'))
  let line = ''
  for (const [index, { day, date }] of starts.entries()) {
    const at = Math.floor(day / perCharacter)
    const next = Math.floor((starts[index + 1]?.day ?? Infinity) / perCharacter)
    const label = date.endsWith('-01') ? shortDate(date).split(' ')[1]! : shortDate(date)
    const end = at + label.length
    if (day < days && (at > line.length || line === '') && end <= width && (next > end || next >= width))
      line = line.padEnd(at) + label
  }
  return line
}

/** The days in one character, where it is more than one. */
export const perCharacter = ({ perCharacter: days }: Grid) =>
  days === 1 ? 'a day a character' : `${days} days a character`

/** Lines with their names before them, above the months of their time and what they mean. */
export function overMonths(
  lines: readonly (readonly [name: string, line: string])[],
  { grid, width, words }: { grid: Grid; width: number; words: string },
  { columns, paint }: Style,
): string {
  const indent = ' '.repeat(width)
  const axis = months(grid)
  return sentences(
    lines.map(([name, line]) => nameCell(name, width) + line),
    axis !== '' && indent + axis,
    paint.faint(wrap(words, columns, indent)),
  ).join('\n')
}

function cells<T>(values: readonly T[], { perCharacter, width }: Grid): T[][] {
  return Array.from({ length: width }, (_, at) => values.slice(at * perCharacter, (at + 1) * perCharacter))
}
