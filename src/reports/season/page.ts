import { type Content, html, Markup } from '../../render/html/markup.ts'
import type { Page } from '../../render/html/page.ts'

/** A report's own page as a part of the season's. */
export interface PagePart {
  name: string
  answer: string
  page: Page
}

/** The whole season on one page: a part for each report, with its answer, charts and tables. */
export function seasonPage(season: number | null, parts: readonly PagePart[]): Page {
  return {
    title: `Season ${season ?? ''}`,
    // Every part has an answer of its own.
    answer: '',
    content: html`<nav aria-label="Parts"><ul>
${parts.map(({ name, page }) => html`<li><a href="#${name}">${page.title}</a></li>\n`)}</ul></nav>
${parts.map(
  ({ name, answer, page }) => html`<section class="part" id="${name}">
<h2>${page.title}</h2>
<p class="answer">${answer}</p>
${demoted(page.content)}</section>
`,
)}`,
  }
}

/** The headings of a page one step lower; text can hold no tag, since it is escaped. */
function demoted(content: Content): Markup {
  return new Markup(html`${content}`.text.replace(/<(\/?)h2\b/g, '<$1h3'))
}
