import { type Columns, words } from '../../render/columns.ts'
import { nameOf } from '../../render/html/figures.ts'
import { html, type Markup } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { blanks, SHEET_LOOK } from '../../render/html/sheet-look.ts'
import { pageTable } from '../../render/html/table.ts'
import { counted } from '../../render/text.ts'
import type { SheetBlock, SheetData } from './report.ts'
import type { SheetLine } from './sheet-block.ts'
import { isSeveral, placeColumns, sizeOf, TITLES, WHAT, wantedText } from './terminal.ts'

/** The sheet as a page to print: each block on its own paper, with boxes to write in. */
export const page: PageOf<SheetData> = ({ data }, { names }) => ({
  title: TITLES[data.kind],
  look: SHEET_LOOK,
  answer: `${counted(data.blocks.length, 'block')}, ${counted(
    data.blocks.reduce((sum, { lines }) => sum + lines.length, 0),
    'line',
  )} to write on.`,
  content: html`${blanks(['date', 'from, to', 'who', 'weather'])}${data.blocks.map((block) =>
    blockPart(block, nameOf(names, block.block)),
  )}<p class="again">The vines were drawn at random. With the same records this draws the same ones: <code>${data.again}</code></p>
`,
})

function blockPart(block: SheetBlock, name: string): Markup {
  const { variety, stops, last, wanted, next, leavesOut } = block
  const size = sizeOf(block)
  return html`<section class="part">
<h2>${name}</h2>
<p class="size">${variety}, ${size}.</p>
${stops.map((stop) => html`<p class="stop">${stop}</p>\n`)}<div class="facts">
${last.length > 0 && factList('Last time', last)}${factList('How many', [...wanted.map(wantedText), ...next, ...leavesOut])}</div>
${linesOf(block, name)}${blanks([...block.once, 'note'])}<p class="type-in">To type it in: <code>${block.typeIn}</code></p>
</section>
`
}

const factList = (title: string, lines: readonly string[]): Markup => html`<div><h3>${title}</h3>
<ul>
${lines.map((line) => html`<li>${line}</li>\n`)}</ul></div>
`

/** Bags side by side that a telephone and a sheet of paper have room for. */
const ABREAST = 7

/** Fields to write in that a table may have and yet stand beside another of its kind on paper. */
const NARROW = 3

/** Lines from which a table is parted into two that stand side by side. */
const LONG = 12

const MISSING = 'A vine is missing? Take the next one.'

/** The lines of a block to write on: one place each, or bags whose vines are ticked one by one. */
function linesOf({ lines, columns }: SheetBlock, name: string): Markup {
  if (isSeveral(lines))
    return html`${gathering(lines, name)}${writeTable(`${name}: what you read`, { lines, columns, where: [WHAT] })}`
  const where = placeColumns(lines)
  const caption = `${name}: where to go, and what you find. ${MISSING}`
  if (columns.length > NARROW || lines.length < LONG) return writeTable(caption, { lines, columns, where })
  const half = Math.ceil(lines.length / 2)
  return html`<p>${caption}</p>
<div class="abreast">${[0, half].map((from) => {
    const part = lines.slice(from, from + half)
    return writeTable(`${name}: ${from + 1} to ${from + part.length}`, { lines: part, columns, where })
  })}</div>
`
}

function writeTable(
  caption: string,
  {
    lines,
    columns,
    where,
  }: { lines: readonly SheetLine[]; columns: readonly string[]; where: Columns<SheetLine, string | number> },
): Markup {
  return pageTable<SheetLine>(caption, lines, [
    ...where,
    ...columns.map((title) => words(title, () => '')),
    words('done', () => TICK),
  ])
}

/** Rows down and bags across: one walk through the rows fills all bags, or down one column fills one. */
function gathering(lines: readonly SheetLine[], name: string): Markup[] {
  const parts = Array.from({ length: Math.ceil(lines.length / ABREAST) }, (_, part) =>
    lines.slice(part * ABREAST, (part + 1) * ABREAST),
  )
  return parts.map((bags, part) => {
    const rows = [...new Set(bags.flatMap(({ places }) => places.map(({ row }) => row)))]
    const known = rows.filter((row) => row !== null).sort((a, b) => a - b)
    const caption = `${name}: the vines of each bag${part === 0 ? `. ${MISSING}` : ', more bags'}`
    return html`<div class="gather">${pageTable(caption, known.length > 0 ? known : [null], [
      words(known.length > 0 ? 'row' : '', (row) => row ?? 'vines'),
      ...bags.map(({ label, places }) => words(label, (row: number | null) => vinesOf(places, row))),
    ])}</div>
`
  })
}

const vinesOf = (places: SheetLine['places'], of: number | null): Markup[] =>
  places
    .filter(({ row }) => row === of)
    .map(
      ({ vine }) =>
        html`<span class="vine"><span class="tick" aria-hidden="true"></span>${String(vine)}</span> `,
    )

/** A box to tick. */
const TICK = html`<span class="tick" aria-hidden="true"></span>`
