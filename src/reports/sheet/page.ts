import { nameOf } from '../../render/html/figures.ts'
import { html, type Markup } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { blanks, SHEET_LOOK } from '../../render/html/sheet-look.ts'
import { counted } from '../../render/text.ts'
import { linesOf } from './page-lines.ts'
import type { SheetBlock, SheetData } from './report.ts'
import { sizeOf, TITLES, wantedText } from './terminal-words.ts'

/** The sheet as a page to print: each block on its own paper, with boxes to write in. */
export const sheetPage: PageOf<SheetData> = ({ data }, { names }) => ({
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
