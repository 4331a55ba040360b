import { type Content, html, Markup } from '../../render/html/markup.ts'
import type { Page } from '../../render/html/page.ts'
import { folded } from '../../render/html/table.ts'

/** A report's own page as a part of the season's. */
interface PagePart {
  name: string
  answer: string
  page: Page
}

/**
 * What is printed beside the answers: what was checked before picking, and what was sprayed, since these are what a
 * grower is asked for later. The rest is looked at on a screen, or printed from its own page.
 */
const FILED: ReadonlySet<string> = new Set(['ready', 'totals'])

/** The whole season on one page: the answer of each report, with its charts and tables folded under it. */
export function seasonPage(season: number | null, parts: readonly PagePart[]): Page {
  return {
    title: `Season ${season ?? ''}`,
    // Every part has an answer of its own.
    answer: '',
    content: parts.map(
      ({ name, answer, page }) => html`<section class="part" id="${name}">
<h2>${page.title}</h2>
<p>${answer}</p>
${page.lead}${folded(`Charts and tables: ${page.title}`, demoted(page.content), { filed: FILED.has(name) })}</section>
`,
    ),
  }
}

/** The headings of a page one step lower; text can hold no tag, since it is escaped. */
function demoted(content: Content): Markup {
  return new Markup(html`${content}`.text.replace(/<(\/?)h2\b/g, '<$1h3'))
}
