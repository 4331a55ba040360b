import { highest } from '../../agronomy/statistics/extremes.ts'
import { type Columns, shownOf } from '../columns.ts'
import { type Content, html, Markup } from './markup.ts'

/** Words up to this length stay on one line; longer ones wrap. */
const SHORT = 20
/** Figures up to this length stand three abreast on a card, which is 328 px wide on a small phone. */
const THIRD = 13
/** The class of a cell by how many stand in its line of a card. */
const ABREAST = ['', 'line', 'half', 'third']

/** How many cells stand in the line of each: three or two, as `wide` ones have room, and one only if alone. */
function abreast(wide: readonly boolean[]): number[] {
  // From the end: how the cells from each place on stand best.
  const from: number[][] = []
  for (let at = wide.length; at >= 0; at -= 1) {
    const left = wide.slice(at)
    const lines = (left.slice(0, 3).includes(true) || left.length < 3 ? [2] : [3, 2]).map((count) => [
      ...Array<number>(count).fill(count),
      ...(from[at + count] ?? []),
    ])
    from[at] = left.length < 2 ? left.map(() => 1) : (lines.find((line) => !line.includes(1)) ?? lines[0]!)
  }
  return from[0]!
}

function plainLength(cell: Content): number {
  if (cell === null || cell === undefined || cell === false) return 0
  if (cell instanceof Markup) return cell.text.replace(/<[^<>]*>/g, '').length
  return typeof cell === 'object'
    ? cell.reduce<number>((sum, part) => sum + plainLength(part), 0)
    : String(cell).length
}

/**
 * A table with its caption and headings. On a phone each row becomes a card whose cells name their column, and
 * ARIA roles keep it a table for screen readers. At widths in between, a wide table scrolls by itself. The first cell of
 * a row is its heading.
 */
export function pageTable<Row>(
  caption: string,
  given: readonly Row[],
  written: Columns<Row, Content>,
): Markup {
  const columns = shownOf(written)
  const rows = given.map((row, index) => columns.map(({ cell }) => cell(row, index)))
  const longest = columns.map((_, index) => highest(rows.map((row) => plainLength(row[index]))))
  const side = (index: number) =>
    columns[index]?.number ? 'number' : longest[index]! <= SHORT ? 'word short' : 'word'
  /** Of the cells that have no line of a card to themselves. */
  const places = (row: readonly Content[]) => {
    const places: string[] = []
    let run: number[] = []
    for (let index = 0; index <= row.length; index += 1) {
      const own = index === 0 ? side(0) !== 'number' : side(index) === 'word'
      if (index < row.length && !own && plainLength(row[index]) > 0) run.push(index)
      if (index < row.length && !own) continue
      const counts = abreast(run.map((at) => longest[at]! > THIRD))
      for (const [at, count] of counts.entries()) places[run[at]!] = ` ${ABREAST[count]}`
      run = []
    }
    return places
  }
  const head = columns.map(
    ({ title }, index) => html`<th scope="col" role="columnheader" class="${side(index)}">${title}</th>`,
  )
  const body = rows.map((row) => {
    const place = places(row)
    return html`<tr role="row">${row.map((cell, index) => {
      const about = html`class="${side(index)}${place[index]}" data-name="${columns[index]!.title}"`
      return index === 0
        ? html`<th scope="row" role="rowheader" ${about}>${cell}</th>`
        : html`<td role="cell" ${about}>${cell}</td>`
    })}</tr>\n`
  })
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
 * A chart can be printed beside the rest of its section.
 */
export function folded(summary: string, content: Content, { filed = false, beside = false } = {}): Markup {
  const look = beside ? 'filed beside' : 'filed'
  return html`<details${(filed || beside) && html` class="${look}"`}><summary>${summary}</summary>
${content}</details>
`
}
