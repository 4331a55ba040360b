import { highest } from '../../agronomy/statistics/extremes.ts'
import type { Report } from '../../facts/report.ts'
import type { Style } from '../../render/style.ts'
import { underAnswer, wrap } from '../../render/text.ts'
import type { SeasonData } from './report.ts'

/** One sentence or two from each report, by its name, and where the rest is. */
export function renderSeason(
  report: Report<SeasonData>,
  answers: ReadonlyMap<string, string>,
  style: Style,
): string {
  const width = highest([...answers.keys()].map((name) => name.length)) + 2
  const parts = [...answers].map(([name, answer]) => {
    const text = wrap(answer, style.columns, ' '.repeat(width)).slice(width)
    return `${style.paint.strong(name.padEnd(width))}${text}`
  })
  const more = `Each line is the answer of \`rowbook NAME\`; \`rowbook season --html FILE\` draws all of them.`
  return underAnswer(`${parts.join('\n')}\n\n${wrap(more, style.columns)}\n`, report.cautions, style.columns)
}
