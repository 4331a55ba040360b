import { type Columns, columnsOf } from '../columns.ts'
import { type Content, html, Markup } from './markup.ts'

interface PageTable {
  caption: string
  columns: Columns
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

/**
 * A table with its caption and headings. On a phone each row becomes a card whose cells name their column, and
 * ARIA roles keep it a table for screen readers. At widths in between, a wide table scrolls by itself.
 */
export function pageTable({ caption, columns: written, rows }: PageTable): Markup {
  const columns = columnsOf(written)
  const side = (index: number) => {
    if (columns[index]?.number) return 'number'
    return rows.every((row) => plainLength(row[index]) <= SHORT) ? 'word short' : 'word'
  }
  const head = columns.map(
    ({ title }, index) => html`<th scope="col" role="columnheader" class="${side(index)}">${title}</th>`,
  )
  const body = rows.map(
    (row) =>
      html`<tr role="row">${row.map((cell, index) => {
        const name = columns[index]?.title ?? ''
        return index === 0
          ? html`<th scope="row" role="rowheader" class="${side(0)}" data-name="${name}">${cell}</th>`
          : html`<td role="cell" class="${side(index)}" data-name="${name}">${cell}</td>`
      })}</tr>\n`,
  )
  return html`<div class="table" role="region" aria-label="${caption}" tabindex="0"><table role="table">
<caption>${caption}</caption>
<thead role="rowgroup"><tr role="row">${head}</tr></thead>
<tbody role="rowgroup">
${body}</tbody></table></div>
`
}

/**
 * A part that the reader can unfold. It is printed only if open, or if it is for filing: such a
 * part is printed closed too, by browsers that can (CSS Pseudo-Elements Level 4, ::details-content).
 */
export function folded(summary: string, content: Content, { filed = false } = {}): Markup {
  return html`<details${filed && html` class="filed"`}><summary>${summary}</summary>
${content}</details>
`
}
