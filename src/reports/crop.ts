import type { Quantity } from '../records/quantity.ts'
import { ESTIMATE_CAUTIONS } from './cautions.ts'
import type { BarChart } from './charts/bar-chart.ts'
import { cropChart } from './charts/crop-chart.ts'
import { type CropBlock, type CropOptions, describe, kg } from './crop/describe.ts'
import { blockCrop } from './crop/estimate.ts'
import { applyLearned } from './crop/learned.ts'
import { learned, pastEstimates } from './crop/past.ts'
import { totalOf } from './crop/total.ts'
import { makeReport, type Report, type ReportInput } from './report.ts'

export type { CropBlock, CropOptions } from './crop/describe.ts'

export interface CropData {
  blocks: CropBlock[]
  total: { estimate: Quantity | null; low: Quantity | null; high: Quantity | null; missing: string | null }
  charts: { crop: BarChart }
}

/** The crop of each block with its interval, what it rests on, and what more counting would bring. */
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
  return makeReport('crop', input, { data, cautions: ESTIMATE_CAUTIONS })
}
