import type { BarChart } from '../../facts/charts/bar-chart.ts'
import { blockCrop, totalOf } from '../../facts/crop/estimate.ts'
import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import type { Quantity } from '../../records/quantity.ts'
import { cropChart } from './chart.ts'
import { type CropBlock, type CropOptions, describe, kg } from './describe.ts'
import { applyLearned } from './learned.ts'
import { learned, pastEstimates } from './past.ts'

export type { CropBlock } from './describe.ts'

export interface CropData {
  blocks: CropBlock[]
  total: { estimate: Quantity | null; low: Quantity | null; high: Quantity | null; missing: string | null }
  charts: { crop: BarChart }
}

/** The crop of each block with its interval, what it is based on, and what more counting would bring. */
export function crop(input: ReportInput, options: CropOptions = {}): Report<CropData> {
  const estimates = input.blocks.map((block) => ({ block, crop: blockCrop(input.ledger, block, input) }))
  const sum = totalOf(
    estimates.map(({ block, crop }) =>
      options.learned ? applyLearned(crop, learned(pastEstimates(input.ledger, block, input))).crop : crop,
    ),
  )
  const blocks = estimates.map(({ block, crop }) => describe(block, { crop, input, options }))
  const data = {
    blocks,
    total: { estimate: kg(sum.estimate), low: kg(sum.low), high: kg(sum.high), missing: sum.reason },
    charts: { crop: cropChart(blocks, (id) => input.ledger.blocks.get(id)?.name ?? id) },
  }
  return makeReport('crop', input, { data, cautions: [CAUTION.estimate] })
}
