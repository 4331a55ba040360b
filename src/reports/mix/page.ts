import { asSentences } from '../../facts/sentences.ts'
import { html, type Markup, section } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { blanks, SHEET_LOOK } from '../../render/html/sheet-look.ts'
import { PLAIN, type Style } from '../../render/style.ts'
import { display } from '../../render/units.ts'
import type { MixData } from './report.ts'
import { answer, fillAmount, inOrder, nameOf } from './terminal.ts'
import { follows, notes } from './terminal-notes.ts'
import { titledFills } from './terminal-shed.ts'

/** The fill sheet of a mix as a page to print: each fill as a list to tick, and room for what was done. */
export const page: PageOf<MixData> = ({ data, findings }, { units }) => {
  const style: Style = { columns: 100, units, paint: PLAIN }
  const said = [...notes(data, style), ...follows(data, style)]
  return {
    title: 'Fill sheet',
    look: SHEET_LOOK,
    answer: answer(data, style),
    content: [
      findings
        .filter(({ level }) => level === 'error')
        .map(({ message, help }) => html`<p class="stop">${asSentences([message, help])}</p>\n`),
      fills(data, style),
      section('Notes', html`<ul>\n${said.map((line) => html`<li>${line}</li>\n`)}</ul>\n`),
      section('What was done', blanks(DONE), html`<p>To record it: <code>rowbook note spray</code></p>\n`),
    ],
  }
}

/** In the order in which `note spray` asks. */
const DONE = 'date|from, to|blocks|water used|left in the tank|wind|temperature|by|note'.split('|')

function fills(data: MixData, { units }: Style): Markup[] {
  if (!data.fills)
    return [
      fill('In all', [
        ...data.products.map((product) =>
          tick(nameOf(product), product.total ? display(product.total, units) : 'unknown'),
        ),
        tick('water', display(data.water, units)),
      ]),
    ]
  return titledFills(data).map(({ title, index }) =>
    fill(title, [
      tick('water to half', `${display(data.toAdd![index]!, units)} in all`),
      ...inOrder(data).map((product) => tick(nameOf(product), fillAmount(product, index, units))),
      tick('water to the mark', display(data.fills![index]!, units)),
    ]),
  )
}

const fill = (title: string, steps: readonly Markup[]): Markup =>
  section(title, html`<ul class="ticks">\n${steps}</ul>\n`)

const tick = (what: string, amount: string): Markup =>
  html`<li><span class="tick"></span><span>${what}</span><span class="amount">${amount}</span></li>\n`
