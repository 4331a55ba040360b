import { type Content, html, Markup } from './markup.ts'

interface PageColumn {
  title: string
  /** Numbers stand right-aligned; words left. */
  number?: boolean
}

interface PageTable {
  caption: string
  columns: readonly PageColumn[]
  /** The first cell of a row is its heading. */
  rows: readonly (readonly Content[])[]
}

/** Words up to this length stay on one line; longer ones wrap. */
const SHORT = 20

function plainLength(cell: Content): number {
  if (cell === null || cell === undefined || cell === false) return 0
  if (cell instanceof Markup) return cell.text.replace(/<[^<>]*>/g, '').length
  return typeof cell === 'object'
    ? cell.reduce<number>((sum, part) => sum + plainLength(part), 0)
    : String(cell).length
}

/** A table with its caption and headings; where it is wider than the screen it scrolls by itself. */
export function pageTable({ caption, columns, rows }: PageTable): Markup {
  const side = (index: number) => {
    if (columns[index]?.number) return 'number'
    return rows.every((row) => plainLength(row[index]) <= SHORT) ? 'word short' : 'word'
  }
  const head = columns.map(({ title }, index) => html`<th scope="col" class="${side(index)}">${title}</th>`)
  const body = rows.map(
    (row) =>
      html`<tr>${row.map((cell, index) =>
        index === 0
          ? html`<th scope="row" class="${side(0)}">${cell}</th>`
          : html`<td class="${side(index)}">${cell}</td>`,
      )}</tr>\n`,
  )
  return html`<div class="table" role="region" aria-label="${caption}" tabindex="0"><table>
<caption>${caption}</caption>
<thead><tr>${head}</tr></thead>
<tbody>
${body}</tbody></table></div>
`
}

/** A long table that a reader opens where it is wanted; it is printed only where it stands open. */
export function folded(summary: string, content: Content): Markup {
  return html`<details><summary>${summary}</summary>
${content}</details>
`
}
