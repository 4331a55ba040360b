import { blockCrop, totalOf } from '../../facts/crop/estimate.ts'
import { CAUTION, makeReport, type ReportInput } from '../../facts/report.ts'
import { cropChart } from './chart.ts'
import { type CropOptions, describe, kg } from './describe.ts'
import { applyLearned, learned, pastEstimates } from './past.ts'

export type { CropBlock } from './describe.ts'

export type CropData = ReturnType<typeof crop>['data']

/** The crop of each block with its interval, what it is based on, and what more counting would bring. */
export function crop(input: ReportInput, options: CropOptions = {}) {
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
