import type { BlockTotals, CopperTotals } from '../../facts/spraying/season-totals.ts'
import type { SprayTotals } from '../../facts/spraying/sum.ts'
import { barsIn } from '../../render/chart-units.ts'
import { numbers } from '../../render/columns.ts'
import { figure } from '../../render/figure.ts'
import { quantityCell, UNKNOWN } from '../../render/html/figures.ts'
import { type Content, html, section } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawBarChart } from '../../render/svg/bar-chart.ts'
import { display } from '../../render/units.ts'
import { copperCharts, mostOf, type TotalsData } from './report.ts'

/** What was sprayed: the vineyard, copper with its limits, then block by block. */
export const totalsPage: PageOf<TotalsData> = ({ data }, input) => {
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
  return pageTable({
    caption: 'Blocks',
    columns: ['block', ...numbers('area', 'sprays', 'treatment frequency index')],
    rows: blocks.map((block) => [
      block.name,
      quantityCell(block.area, input),
      String(block.sprays),
      figure(block.treatmentFrequency, 1),
    ]),
  })
}

function productsTable(caption: string, { products }: SprayTotals, input: PageInput): Content {
  if (products.length === 0) return html`<p>Nothing was sprayed.</p>\n`
  return pageTable({
    caption,
    columns: ['product', ...numbers('applications', 'in all', 'for the area')],
    rows: products.map(({ name, applications, total, perHa, missing }) => [
      name,
      String(applications),
      total === null ? `unknown: ${missing}` : quantityCell(total, input),
      quantityCell(perHa, input),
    ]),
  })
}

function activesTable({ name, actives }: BlockTotals, input: PageInput): Content {
  if (actives.length === 0) return null
  return pageTable({
    caption: `Active substances on ${name}`,
    columns: ['active', 'group', ...numbers('for the area')],
    rows: actives.map(({ active, group, perHa, missing }) => [
      active,
      group ?? '-',
      perHa === null ? `unknown: ${missing}` : quantityCell(perHa, input),
    ]),
  })
}

function copperTable(blocks: readonly BlockTotals[], input: PageInput): Content {
  const limit = (value: CopperTotals['limitSeason']) =>
    value === null ? 'none set' : quantityCell(value, input)
  const room = (value: CopperTotals['roomSeason'], set: CopperTotals['limitSeason']) =>
    set === null ? '-' : quantityCell(value, input)
  return html`${pageTable({
    caption: 'Copper as metal, and the allowance left',
    columns: [
      'block',
      ...numbers('season', 'limit', 'allowance left', 'over years', 'limit', 'allowance left'),
    ],
    rows: blocks.map(({ name, copper }) => [
      name,
      quantityCell(copper.season, input),
      limit(copper.limitSeason),
      room(copper.roomSeason, copper.limitSeason),
      copper.rolling === null ? UNKNOWN : quantityCell(copper.rolling, input),
      limit(copper.limitRolling),
      room(copper.roomRolling, copper.limitRolling),
    ]),
  })}${remarks(blocks, input)}`
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
  return pageTable({
    caption: 'Stock',
    columns: ['product', ...numbers('used', 'cost', 'left')],
    rows: store.map(({ name, used, cost, left, why }) => [
      name,
      quantityCell(used, input),
      cost === null ? '-' : `${figure(cost.value, 2)} ${cost.currency}`,
      left === null ? (why ?? UNKNOWN) : quantityCell(left, input),
    ]),
  })
}
