import type { Report } from '../../../reports/report.ts'
import { partOf, type SeasonData } from '../../../reports/season.ts'
import { seasonAnswers } from '../../season.ts'
import { paintFor } from '../../style.ts'
import type { PageOf } from '../index.ts'
import { type Content, html, Markup } from '../markup.ts'
import type { Page, PageInput } from '../page.ts'
import { coverPage } from './cover.ts'
import { cropPage } from './crop.ts'
import { harvestPage } from './harvest.ts'
import { heatPage } from './heat.ts'
import { pressurePage } from './pressure.ts'
import { readyPage } from './ready.ts'
import { ripenessPage } from './ripeness.ts'
import { scoutingPage } from './scouting.ts'
import { totalsPage } from './totals.ts'
import { windowPage } from './window.ts'

/** Wide enough that no answer is cut into lines before it is put together again. */
const COLUMNS = 100

/** The whole season on one page: a part for each report, with its answer, charts and tables. */
export const seasonPage: PageOf<SeasonData> = (report, input) => {
  const style = { columns: COLUMNS, units: input.units, paint: paintFor(false) }
  const answers = seasonAnswers(report, input.names, style)
  const parts = partsOf(report, input)
  return {
    title: `Season ${report.season ?? ''}`,
    content: html`<nav aria-label="Parts"><ul>
${parts.map(({ name, page }) => html`<li><a href="#${name}">${page.title}</a></li>\n`)}</ul></nav>
${parts.map(
  ({ name, page }) => html`<section class="part" id="${name}">
<h2>${page.title}</h2>
<p class="answer">${answers[name]}</p>
${demoted(page.content)}</section>
`,
)}`,
  }
}

function partsOf(report: Report<SeasonData>, input: PageInput): { name: keyof SeasonData; page: Page }[] {
  return [
    { name: 'ready', page: readyPage(partOf(report, 'ready'), input) },
    { name: 'window', page: windowPage(partOf(report, 'window'), input) },
    { name: 'ripeness', page: ripenessPage(partOf(report, 'ripeness'), input) },
    { name: 'crop', page: cropPage(partOf(report, 'crop'), input) },
    { name: 'harvest', page: harvestPage(partOf(report, 'harvest'), input) },
    { name: 'scouting', page: scoutingPage(partOf(report, 'scouting'), input) },
    { name: 'cover', page: coverPage(partOf(report, 'cover'), input) },
    { name: 'pressure', page: pressurePage(partOf(report, 'pressure'), input) },
    { name: 'totals', page: totalsPage(partOf(report, 'totals'), input) },
    { name: 'heat', page: heatPage(partOf(report, 'heat'), input) },
  ]
}

/** The headings of a page one step lower; text can hold no tag, since it is escaped. */
function demoted(content: Content): Markup {
  return new Markup(html`${content}`.text.replace(/<(\/?)h2\b/g, '<$1h3'))
}
