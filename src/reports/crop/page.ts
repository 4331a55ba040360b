import { barsIn } from '../../render/chart-units.ts'
import { numbers } from '../../render/columns.ts'
import { figure, rough } from '../../render/figure.ts'
import { missingLines, nameOf, numberCell, quantityCell, roughCell } from '../../render/html/figures.ts'
import { type Content, section } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawBarChart } from '../../render/svg/bar-chart.ts'
import { groupDigits } from '../../render/text.ts'
import type { CropData } from './report.ts'

/** The crop expected, what it is based on, and how past estimates did. */
export const cropPage: PageOf<CropData> = ({ data }, input) => ({
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
  return pageTable({
    caption: 'Crop expected, with its 95 % interval',
    columns: ['block', ...numbers('crop', 'low', 'high', 'per area')],
    rows: [
      ...blocks.map((block) => [
        nameOf(input.names, block.block),
        ...[block.estimate, block.low, block.high, block.perHa].map((one) => roughCell(one, input)),
      ]),
      ['all blocks', ...[total.estimate, total.low, total.high].map((one) => roughCell(one, input)), ''],
    ],
  })
}

function basisTable({ blocks }: CropData, input: PageInput): Content {
  return pageTable({
    caption: 'Vines, bunches and weights',
    columns: [
      'block',
      ...numbers(
        'living vines',
        'missing',
        'vines counted',
        'bunches a vine',
        'bunch weight',
        'growth factor',
      ),
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
  const columns = ['block', ...numbers('season', 'fruit', 'prunings', 'crop load')]
  const caption = 'One vine; prunings of the next winter'
  return section('Fruit and prunings (Ravaz index)', pageTable({ caption, columns, rows }))
}

function pastTable({ blocks }: CropData, input: PageInput): Content {
  const rows = blocks.flatMap(({ block, past }) =>
    past.map((one) => [
      nameOf(input.names, block),
      String(one.season),
      one.at === 'lag' ? 'lag phase' : 'harvest',
      rough({ value: one.estimate, unit: 'kg' }, input.units),
      rough({ value: one.actual, unit: 'kg' }, input.units),
      `${one.error > 0 ? '+' : ''}${figure(one.error * 100, 0)} %`,
    ]),
  )
  if (rows.length === 0) return null
  const figures = numbers('estimated', 'picked', 'off by')
  const columns = ['block', ...numbers('season'), 'weighed at', ...figures]
  const table = pageTable({ caption: 'Estimated and picked', columns, rows })
  return section('Past estimates', folded('Every past estimate', table, { filed: true }))
}
