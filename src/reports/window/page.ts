import type { SpanChart } from '../../facts/charts/span-chart.ts'
import { sayLastSprays } from '../../facts/window/last-sprays.ts'
import { figure } from '../../render/figure.ts'
import { dateCell, nameOf } from '../../render/html/figures.ts'
import { type Content, html } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { pageTable } from '../../render/html/table.ts'
import { drawCourseChart } from '../../render/svg/course-chart.ts'
import { drawSpanChart } from '../../render/svg/span-chart.ts'
import { windowChart } from './chart.ts'
import type { WindowData } from './report.ts'

type Block = WindowData['blocks'][number]

const METHODS = {
  'sugar-trend': 'by the samples',
  'heat-sum': 'by the heat sum',
  'days-after-veraison': 'by days after veraison',
} as const

/** When each block reaches its target: the blocks side by side, then each with its samples and methods. */
export const windowPage: PageOf<WindowData> = ({ data }, { names }) => {
  const title = (block: Block) => nameOf(names, block.block)
  const parts = data.blocks.map((block, index) => {
    const methods = methodSpans(block, title(block))
    return html`<section>
<h2>${title(block)}</h2>
<p>${block.target === null ? block.why : `Target ${block.target} Brix (${block.targetSource}).`}${block.target !== null && block.why && ` ${upper(block.why)}.`}${block.legalFrom && html` May be picked from ${dateCell(block.legalFrom)} by the days before harvest.`}${block.picked && html` Picked on ${dateCell(block.picked)}.`}${block.lastSprays && ` Sprayed today for that window, by days before harvest alone: ${sayLastSprays(block.lastSprays)}.`}</p>
${block.conflicts.length > 0 && html`<ul class="plain">${block.conflicts.map((conflict) => html`<li>${upper(conflict)}${/[.!?]$/.test(conflict) ? '' : '.'}</li>\n`)}</ul>\n`}${block.chart && drawCourseChart(`window-${index}`, block.chart)}${block.heatChart && drawCourseChart(`heat-${index}`, block.heatChart)}${methods.rows.length > 1 && drawSpanChart(`methods-${index}`, methods)}${block.methods.length > 0 && methodTable(block, title(block))}</section>
`
  })
  const all = windowChart(data.blocks, (block) => nameOf(names, block))
  return {
    title: 'When to pick',
    content: html`${all.rows.length > 1 && drawSpanChart('window-all', all)}${blockTable(data, title)}${parts}<p class="quiet">Each date is the day on which the mean sugar of the block reaches the target; earliest and latest end a 90 % interval.</p>
`,
  }
}

const upper = (text: string) => `${text[0]?.toUpperCase() ?? ''}${text.slice(1)}`

function methodSpans(block: Block, name: string): SpanChart {
  const rows = [...block.methods, { ...block, method: 'all' as const }].flatMap((method) =>
    method.earliest && method.latest
      ? [
          {
            name: method.method === 'all' ? 'all together' : METHODS[method.method],
            earliest: method.earliest,
            likely: method.likely,
            latest: method.latest,
            strong: method.method === 'all',
          },
        ]
      : [],
  )
  const marks =
    block.legalFrom && rows.length > 0 ? [{ date: block.legalFrom, label: 'may be picked from' }] : []
  return { title: `${name}: what each method says`, rows, marks }
}

function blockTable({ blocks }: WindowData, title: (block: Block) => string): Content {
  return pageTable({
    caption: 'When each block reaches its target',
    columns: [
      { title: 'block' },
      { title: 'target, Brix', number: true },
      { title: 'earliest', number: true },
      { title: 'likely', number: true },
      { title: 'latest', number: true },
      { title: 'may be picked from', number: true },
      { title: 'last sample, Brix', number: true },
    ],
    rows: blocks.map((block) => [
      title(block),
      block.target === null ? 'none' : String(block.target),
      dateCell(block.earliest),
      dateCell(block.likely),
      dateCell(block.latest),
      block.legalFrom === null ? 'no wait' : dateCell(block.legalFrom),
      block.lastSample === null
        ? 'none'
        : html`${figure(block.lastSample.brix, 1)} on ${dateCell(block.lastSample.date)}`,
    ]),
  })
}

function methodTable({ methods }: Block, name: string): Content {
  return pageTable({
    caption: `Methods for ${name}`,
    columns: [
      { title: 'method' },
      { title: 'earliest', number: true },
      { title: 'likely', number: true },
      { title: 'latest', number: true },
      { title: 'weight', number: true },
      { title: 'why' },
    ],
    rows: methods.map((method) => [
      METHODS[method.method],
      dateCell(method.earliest),
      dateCell(method.likely),
      dateCell(method.latest),
      method.weight > 0 ? figure(method.weight, 2) : '-',
      method.why,
    ]),
  })
}
