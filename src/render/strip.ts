import { highest } from '../agronomy/statistics/extremes.ts'
import type { DayChart } from '../facts/charts/day-chart.ts'
import { addDays, dayOf, isoDate } from '../records/date.ts'
import { shortDate } from '../records/spoken-date.ts'

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

/** Names in front of lines, cut and filled to one width. */
export function nameColumn(names: readonly string[]): { width: number; cells: string[] } {
  const width = Math.min(24, highest(names.map((name) => name.length)) + 2)
  return { width, cells: names.map((name) => name.slice(0, width - 2).padEnd(width)) }
}

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

/** The first of each month under a strip. */
export function months({ from, days, perCharacter, width }: Grid): string {
  const line = Array.from({ length: width }, () => ' ')
  const first = dayOf(from)
  let free = 0
  for (let day = 0; day < days; day++) {
    const date = isoDate(first + day)
    if (!date.endsWith('-01') && day > 0) continue
    const at = Math.floor(day / perCharacter)
    const label = day === 0 && !date.endsWith('-01') ? shortDate(date) : shortDate(date).split(' ')[1]!
    const next = nextMonth(date, first, perCharacter)
    if (at < free || at + label.length > width || (next < at + label.length + 1 && next < width)) continue
    for (let index = 0; index < label.length; index++) line[at + index] = label[index]!
    free = at + label.length + 1
  }
  return line.join('').trimEnd()
}

/** The days in one character, where it is more than one. */
export const perCharacter = ({ perCharacter: days }: Grid) =>
  days === 1 ? 'a day a character' : `${days} days a character`

function nextMonth(date: string, first: number, perCharacter: number): number {
  const start = addDays(`${date.slice(0, 7)}-28`, 4).slice(0, 7)
  return Math.floor((dayOf(`${start}-01`) - first) / perCharacter)
}

function cells<T>(values: readonly T[], { perCharacter, width }: Grid): T[][] {
  return Array.from({ length: width }, (_, at) => values.slice(at * perCharacter, (at + 1) * perCharacter))
}
