import { daysBetween, latestOf } from '../../records/date.ts'
import { diseaseWord } from '../../records/disease.ts'
import { blockName, type CoverNames, coverWord } from '../../render/disease-words.ts'
import { gridOf, overMonths, perCharacter, strip, wordStrip } from '../../render/strip.ts'
import type { Style } from '../../render/style.ts'
import type { CoverData } from './report.ts'

const ROOM = 16

/** The character of each word, the worst last. */
const SIGNS = [
  { word: 'past need', sign: ' ' },
  { word: 'not yet', sign: ' ' },
  { word: 'covered', sign: '█' },
  { word: 'unknown', sign: '?' },
  { word: 'in part', sign: '▄' },
  { word: 'open', sign: '▁' },
] as const

/** The time in which any block needs protection: the pressure, and below it each block's protection, day by day. */
export function coverStrips({ blocks, chart, disease }: CoverData, names: CoverNames, style: Style): string {
  const all = blocks[0]!.days
  const first = blocks.map(({ needed }) => needed.from).sort()[0]!
  const last = latestOf(blocks.map(({ needed }) => needed.to))!
  const start = Math.min(all.length - 1, Math.max(0, daysBetween(all[0]!.date, first)))
  const end = Math.max(start + 1, daysBetween(all[0]!.date, last) + 1)
  const grid = gridOf(
    all[start]?.date ?? all[0]!.date,
    Math.min(end, all.length) - start,
    style.columns - ROOM,
  )
  // The pressure begins with the weather, which may be later than the days of the block.
  const offset = daysBetween(all[0]!.date, chart.from)
  const values = all.map((_, at) => chart.values[at - offset] ?? null).slice(start, end)
  const words = blocks.map(({ block, days, needed }) => ({
    block,
    words: days.slice(start, end).map((day) => coverWord(day, needed)),
  }))
  const has = (word: string) => words.some((one) => one.words.some((each) => each === word))
  const legend = [
    'top line: disease pressure. Each block: full = protected, low = unprotected',
    has('in part') ? ', half = protected in part' : '',
    has('unknown') ? ', ? = unknown' : '',
    '. Blank = no protection needed',
    grid.perCharacter > 1 ? `; worst day shown, ${perCharacter(grid)}` : `; ${perCharacter(grid)}`,
  ].join('')
  const lines = words.map((one) => [blockName(one.block, names), wordStrip(one.words, grid, SIGNS)] as const)
  return overMonths(
    [[diseaseWord(disease), strip({ ...chart, values }, grid)], ...lines],
    { grid, width: ROOM, words: legend },
    style,
  )
}
