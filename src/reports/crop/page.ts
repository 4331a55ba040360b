import { barsIn } from '../../render/chart-units.ts'
import { numbers, words } from '../../render/columns.ts'
import { rough, signed } from '../../render/figure.ts'
import { missingLines, nameOf, numberCell, quantityCell, roughCell } from '../../render/html/figures.ts'
import { type Content, section } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawBarChart } from '../../render/svg/bar-chart.ts'
import { groupDigits } from '../../render/text.ts'
import type { CropData } from './report.ts'

/** The crop expected, what it is based on, and how past estimates did. */
export const page: PageOf<CropData> = ({ data }, input) => ({
  title: 'Crop',
  content: [
    section(
      'Expected',
      drawBarChart('crop', barsIn(data.charts.crop, input.units)),
      cropTable(data, input),
      missingLines(data.blocks, input),
    ),
    section('Based on', basisTable(data, input)),
    pastTable(data, input),
    balanceTable(data, input),
  ],
})

function cropTable({ blocks, total }: CropData, input: PageInput): Content {
  const rows = [
    ...blocks.map((block) => ({ ...block, name: nameOf(input.names, block.block) })),
    { ...total, name: 'all blocks', perHa: undefined },
  ]
  return pageTable('Crop expected, with its 95 % interval', rows, [
    words('block', ({ name }) => name),
    numbers('crop', ({ estimate }) => roughCell(estimate, input)),
    numbers('low', ({ low }) => roughCell(low, input)),
    numbers('high', ({ high }) => roughCell(high, input)),
    numbers('per area', ({ perHa }) => (perHa === undefined ? '' : roughCell(perHa, input))),
  ])
}

function basisTable({ blocks }: CropData, input: PageInput): Content {
  return pageTable('Vines, bunches and weights', blocks, [
    words('block', ({ block }) => nameOf(input.names, block)),
    numbers('living vines', ({ vines }) => groupDigits(vines)),
    numbers('missing', ({ missingVines }) => missingVines),
    numbers('vines counted', ({ vinesCounted }) => vinesCounted),
    numbers('bunches a vine', ({ bunchesPerVine }) => numberCell(bunchesPerVine, 1)),
    numbers('bunch weight', ({ bunchWeight }) => quantityCell(bunchWeight, input)),
    numbers('growth factor', ({ growthFactor }) => numberCell(growthFactor?.value ?? null, 2)),
  ])
}

function balanceTable({ blocks }: CropData, input: PageInput): Content {
  const rows = blocks.flatMap(({ block, balance }) =>
    balance.map((one) => ({ ...one, name: nameOf(input.names, block) })),
  )
  if (rows.length === 0) return null
  const table = pageTable('One vine; prunings of the next winter', rows, [
    words('block', ({ name }) => name),
    numbers('season', ({ season }) => season),
    numbers('fruit', ({ fruit }) => quantityCell(fruit, input)),
    numbers('prunings', ({ prunings }) => quantityCell(prunings, input)),
    numbers('crop load', ({ cropLoad }) => numberCell(cropLoad, 1)),
  ])
  return section('Fruit and prunings (Ravaz index)', table)
}

function pastTable({ blocks }: CropData, input: PageInput): Content {
  const rows = blocks.flatMap(({ block, past }) =>
    past.map((one) => ({ ...one, name: nameOf(input.names, block) })),
  )
  if (rows.length === 0) return null
  const kg = (value: number) => rough({ value, unit: 'kg' }, input.units)
  const table = pageTable('Estimated and picked', rows, [
    words('block', ({ name }) => name),
    numbers('season', ({ season }) => season),
    words('weighed at', ({ at }) => (at === 'lag' ? 'lag phase' : 'harvest')),
    numbers('estimated', ({ estimate }) => kg(estimate)),
    numbers('picked', ({ actual }) => kg(actual)),
    numbers('off by', ({ error }) => `${signed(error * 100, 0)} %`),
  ])
  return section('Past estimates', folded('Every past estimate', table, { filed: true }))
}
