import { figure } from '../../render/figure.ts'
import { nameOf, numberCell, quantityCell } from '../../render/html/figures.ts'
import { type Content, html } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { pageTable } from '../../render/html/table.ts'
import { drawBarChart } from '../../render/svg/bar-chart.ts'
import { groupDigits } from '../../render/text.ts'
import type { CropData } from './report.ts'

/** The crop expected, what it rests on, and how earlier estimates did. */
export const cropPage: PageOf<CropData> = ({ data }, input) => ({
  title: 'Crop',
  content: html`<section>
<h2>Expected</h2>
${drawBarChart('crop', data.charts.crop)}${cropTable(data, input)}${data.blocks.map(
  ({ block, missing }) =>
    missing && html`<p class="quiet">${nameOf(input.names, block)}: missing ${missing}.</p>\n`,
)}</section>
<section>
<h2>What it rests on</h2>
${basisTable(data, input)}</section>
${pastTable(data, input)}${balanceTable(data, input)}`,
})

function cropTable({ blocks, total }: CropData, input: PageInput): Content {
  const whole = (quantity: { value: number; unit: string } | null) =>
    quantity === null
      ? quantityCell(null, input)
      : quantityCell({ ...quantity, value: Math.round(quantity.value / 10) * 10 }, input)
  return pageTable({
    caption: 'Crop expected, with its 95 % interval',
    columns: [
      { title: 'block' },
      { title: 'crop', number: true },
      { title: 'low', number: true },
      { title: 'high', number: true },
      { title: 'for the area', number: true },
    ],
    rows: [
      ...blocks.map((block) => [
        nameOf(input.names, block.block),
        whole(block.estimate),
        whole(block.low),
        whole(block.high),
        whole(block.perHa),
      ]),
      ['all together', whole(total.estimate), whole(total.low), whole(total.high), ''],
    ],
  })
}

function basisTable({ blocks }: CropData, input: PageInput): Content {
  return pageTable({
    caption: 'Vines, bunches and weights',
    columns: [
      { title: 'block' },
      { title: 'living vines', number: true },
      { title: 'missing', number: true },
      { title: 'vines counted', number: true },
      { title: 'bunches a vine', number: true },
      { title: 'bunch weight', number: true },
      { title: 'growth factor', number: true },
    ],
    rows: blocks.map((block) => [
      nameOf(input.names, block.block),
      groupDigits(block.vines),
      String(block.missingVines),
      String(block.vinesCounted),
      numberCell(block.bunchesPerVine, 1),
      quantityCell(block.bunchWeight, input),
      numberCell(block.growthFactor?.value ?? null, 2),
    ]),
  })
}

function balanceTable({ blocks }: CropData, input: PageInput): Content {
  const rows = blocks.flatMap(({ block, balance }) =>
    balance.map(({ season, fruit, prunings, cropLoad }) => [
      nameOf(input.names, block),
      String(season),
      quantityCell(fruit, input),
      quantityCell(prunings, input),
      numberCell(cropLoad, 1),
    ]),
  )
  if (rows.length === 0) return null
  return html`<section>
<h2>Fruit against prunings</h2>
${pageTable({
  caption: 'Of one vine; the prunings are those of the winter after',
  columns: [
    { title: 'block' },
    { title: 'season', number: true },
    { title: 'fruit', number: true },
    { title: 'prunings', number: true },
    { title: 'crop load', number: true },
  ],
  rows,
})}</section>
`
}

function pastTable({ blocks }: CropData, input: PageInput): Content {
  const rows = blocks.flatMap(({ block, past }) =>
    past.map((one) => [
      nameOf(input.names, block),
      String(one.season),
      one.at,
      groupDigits(Math.round(one.estimate)),
      groupDigits(Math.round(one.actual)),
      `${one.error > 0 ? '+' : ''}${figure(one.error * 100, 0)} %`,
    ]),
  )
  if (rows.length === 0) return null
  return html`<section>
<h2>How earlier estimates did</h2>
${pageTable({
  caption: 'Estimated against picked, kg',
  columns: [
    { title: 'block' },
    { title: 'season', number: true },
    { title: 'weighed at' },
    { title: 'estimated', number: true },
    { title: 'picked', number: true },
    { title: 'off by', number: true },
  ],
  rows,
})}</section>
`
}
