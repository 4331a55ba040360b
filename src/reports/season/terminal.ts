import type { Report } from '../../facts/report.ts'
import type { Style } from '../../render/style.ts'
import { firstParagraph, renderCautions, wrap } from '../../render/text.ts'
import { renderCover } from '../cover/terminal.ts'
import { renderCrop } from '../crop/terminal.ts'
import { renderHarvest } from '../harvest/terminal.ts'
import { renderHeat } from '../heat/terminal.ts'
import { renderPressure } from '../pressure/terminal.ts'
import { renderReady } from '../ready/terminal.ts'
import { renderRipeness } from '../ripeness/terminal.ts'
import { renderScouting } from '../scouting/terminal.ts'
import { renderTotals } from '../totals/terminal.ts'
import { renderWindow } from '../window/terminal.ts'
import { partOf, type SeasonData } from './report.ts'

interface SeasonNames {
  blocks: ReadonlyMap<string, string>
  products: ReadonlyMap<string, string>
}

/** The answer of every report of a season, in the order in which a grower asks. */
export function seasonAnswers(
  report: Report<SeasonData>,
  names: SeasonNames,
  style: Style,
): Record<keyof SeasonData, string> {
  const { blocks } = names
  const printed: Record<keyof SeasonData, string> = {
    ready: renderReady(partOf(report, 'ready'), { names: blocks, all: true }, style),
    window: renderWindow(partOf(report, 'window'), blocks, style),
    ripeness: renderRipeness(partOf(report, 'ripeness'), { blocks, asPressed: false }, style),
    crop: renderCrop(partOf(report, 'crop'), blocks, style),
    harvest: renderHarvest(partOf(report, 'harvest'), blocks, style),
    scouting: renderScouting(partOf(report, 'scouting'), names, style),
    cover: renderCover(partOf(report, 'cover'), names, style),
    pressure: renderPressure(partOf(report, 'pressure'), style),
    totals: renderTotals(partOf(report, 'totals'), style),
    heat: renderHeat(partOf(report, 'heat'), blocks, style),
  }
  const answers = Object.entries(printed).map(([name, text]) => [name, firstParagraph(text)])
  return Object.fromEntries(answers) as Record<keyof SeasonData, string>
}

/** One sentence or two from each report, and where the rest is. */
export function renderSeason(report: Report<SeasonData>, names: SeasonNames, style: Style): string {
  const answers = seasonAnswers(report, names, style)
  const width = Math.max(...Object.keys(answers).map((name) => name.length)) + 2
  const parts = Object.entries(answers).map(([name, answer]) => {
    const text = wrap(answer, style.columns, ' '.repeat(width)).slice(width)
    return `${style.paint.strong(name.padEnd(width))}${text}`
  })
  const more = `Each line is the answer of \`rowbook NAME\`; \`rowbook season --html FILE\` draws all of them.`
  return `${parts.join('\n')}\n\n${wrap(more, style.columns)}\n${renderCautions(report.cautions, style.columns)}`
}
