import type { BarChart } from '../../facts/charts/bar-chart.ts'
import { totalOf } from '../../facts/crop/estimate.ts'
import { CAUTION, makeReport, type ReportInput } from '../../facts/report.ts'
import { type CropOptions, describe, kg } from './describe.ts'

export type { CropBlock } from './describe.ts'

export type CropData = ReturnType<typeof crop>['data']

/** The crop of each block with its interval, what it is based on, and what more counting would bring. */
export function crop(input: ReportInput, options: CropOptions = {}) {
  const each = input.blocks.map((block) => ({ name: block.name, ...describe(block, input, options) }))
  const sum = totalOf(each.map(({ crop }) => crop))
  const chart: BarChart = {
    title: 'Crop expected',
    unit: 'kg',
    bars: each.flatMap(({ name, crop: { estimate, low, high } }) =>
      estimate === null ? [] : { name, value: estimate, low, high },
    ),
  }
  const data = {
    blocks: each.map((one) => one.data),
    total: { estimate: kg(sum.estimate), low: kg(sum.low), high: kg(sum.high), missing: sum.reason },
    charts: { crop: chart },
  }
  return makeReport('crop', input, { data, cautions: [CAUTION.estimate] })
}
