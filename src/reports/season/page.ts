import type { Report } from '../../facts/report.ts'
import { type Content, html, Markup } from '../../render/html/markup.ts'
import type { Page, PageInput, PageOf } from '../../render/html/page.ts'
import { paintFor } from '../../render/style.ts'
import { coverPage } from '../cover/page.ts'
import { cropPage } from '../crop/page.ts'
import { harvestPage } from '../harvest/page.ts'
import { heatPage } from '../heat/page.ts'
import { pressurePage } from '../pressure/page.ts'
import { readyPage } from '../ready/page.ts'
import { ripenessPage } from '../ripeness/page.ts'
import { scoutingPage } from '../scouting/page.ts'
import { totalsPage } from '../totals/page.ts'
import { windowPage } from '../window/page.ts'
import { partOf, type SeasonData } from './report.ts'
import { seasonAnswers } from './terminal.ts'

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
