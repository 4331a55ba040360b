import type { BlockTotals, CopperTotals } from '../../facts/spraying/season-totals.ts'
import type { SprayTotals } from '../../facts/spraying/sum.ts'
import { barsIn } from '../../render/chart-units.ts'
import { numbers, words } from '../../render/columns.ts'
import { figure } from '../../render/figure.ts'
import { quantityCell, UNKNOWN } from '../../render/html/figures.ts'
import { type Content, html, section } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawBarChart } from '../../render/svg/bar-chart.ts'
import { display } from '../../render/units.ts'
import { copperCharts, mostOf, type TotalsData } from './report.ts'

/** What was sprayed: the vineyard, copper with its limits, then block by block. */
export const page: PageOf<TotalsData> = ({ data }, input) => {
  const charts = copperCharts(data)
  return {
    title: 'What was sprayed',
    content: [
      section(
        'The vineyard',
        blocksTable(data.blocks, input),
        productsTable('Products over all blocks', data.vineyard, input),
        data.store.length > 0 && folded('Stock used and left', storeTable(data, input), { filed: true }),
      ),
      section(
        'Copper',
        drawBarChart('copper-season', barsIn(charts.season, input.units)),
        drawBarChart('copper-rolling', barsIn(charts.rolling, input.units)),
        copperTable(data.blocks, input),
      ),
      data.blocks.map((block) =>
        section(
          block.name,
          folded(
            `Products and active substances on ${block.name}`,
            [productsTable(`Products on ${block.name}`, block, input), activesTable(block, input)],
            { filed: true },
          ),
        ),
      ),
    ],
  }
}

function blocksTable(blocks: readonly BlockTotals[], input: PageInput): Content {
  return pageTable('Blocks', blocks, [
    words('block', ({ name }) => name),
    numbers('area', ({ area }) => quantityCell(area, input)),
    numbers('sprays', ({ sprays }) => sprays),
    numbers('treatment frequency index', ({ treatmentFrequency }) => figure(treatmentFrequency, 1)),
  ])
}

function productsTable(caption: string, { products }: SprayTotals, input: PageInput): Content {
  if (products.length === 0) return html`<p>Nothing was sprayed.</p>\n`
  return pageTable(caption, products, [
    words('product', ({ name }) => name),
    numbers('applications', ({ applications }) => applications),
    numbers('in all', ({ total, missing }) =>
      total === null ? `unknown: ${missing}` : quantityCell(total, input),
    ),
    numbers('for the area', ({ perHa }) => quantityCell(perHa, input)),
  ])
}

function activesTable({ name, actives }: BlockTotals, input: PageInput): Content {
  if (actives.length === 0) return null
  return pageTable(`Active substances on ${name}`, actives, [
    words('active', ({ active }) => active),
    words('group', ({ group }) => group ?? '-'),
    numbers('for the area', ({ perHa, missing }) =>
      perHa === null ? `unknown: ${missing}` : quantityCell(perHa, input),
    ),
  ])
}

function copperTable(blocks: readonly BlockTotals[], input: PageInput): Content {
  const limit = (value: CopperTotals['limitSeason']) =>
    value === null ? 'none set' : quantityCell(value, input)
  const room = (value: CopperTotals['roomSeason'], set: CopperTotals['limitSeason']) =>
    set === null ? '-' : quantityCell(value, input)
  return html`${pageTable('Copper as metal, and the allowance left', blocks, [
    words('block', ({ name }) => name),
    numbers('season', ({ copper }) => quantityCell(copper.season, input)),
    numbers('limit', ({ copper }) => limit(copper.limitSeason)),
    numbers('allowance left', ({ copper }) => room(copper.roomSeason, copper.limitSeason)),
    numbers('over years', ({ copper }) => quantityCell(copper.rolling, input)),
    numbers('limit', ({ copper }) => limit(copper.limitRolling)),
    numbers('allowance left', ({ copper }) => room(copper.roomRolling, copper.limitRolling)),
  ])}${remarks(blocks, input)}`
}

function remarks(blocks: readonly BlockTotals[], { units }: PageInput): Content {
  const lines = new Set(
    blocks.flatMap(({ name, copper }) => [
      ...(copper.missing ? [`${name}: missing ${copper.missing}.`] : []),
      ...(copper.window && copper.window.unknown.length > 0
        ? [`No records for ${copper.window.unknown.join(', ')}, so copper over years is a minimum.`]
        : []),
    ]),
  )
  for (const { name, copper } of mostOf(blocks))
    lines.add(
      `${name}: at most ${copper.most ? display(copper.most, units) : 'an unknown amount'} this season on one vine, if all sprays of a part met it.`,
    )
  return [...lines].map((line) => html`<p class="quiet">${line}</p>\n`)
}

function storeTable({ store }: TotalsData, input: PageInput): Content {
  return pageTable('Stock', store, [
    words('product', ({ name }) => name),
    numbers('used', ({ used }) => quantityCell(used, input)),
    numbers('cost', ({ cost }) => (cost === null ? '-' : `${figure(cost.value, 2)} ${cost.currency}`)),
    numbers('left', ({ left, why }) => (left === null ? (why ?? UNKNOWN) : quantityCell(left, input))),
  ])
}
