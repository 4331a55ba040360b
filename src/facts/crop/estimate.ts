import { type CropEstimate, cropEstimate } from '../../agronomy/crop/crop-estimate.ts'
import { cropTotal } from '../../agronomy/crop/crop-total.ts'
import { factorAtHarvest, type GrowthFactor, growthFactor } from '../../agronomy/crop/growth-factor.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import { vinesOf } from '../block-size.ts'
import { shareHanging } from '../hanging.ts'
import { type Counts, countsOf, missingCounts } from './counts.ts'

/** The crop of a block as estimated on a day; null where `missing` says what is missing. */
export interface BlockCrop {
  counts: Counts[]
  /** Living vines that the estimate covers. */
  vines: number
  factor: GrowthFactor
  parts: CropEstimate[]
  /** kg */
  estimate: number | null
  low: number | null
  high: number | null
  missing: string | null
}

/**
 * Estimates the crop of a block, its parts each on their own, with the growth factor of its own earlier seasons; or a
 * `share` of it, 0 to 1.
 */
export function blockCrop(
  ledger: Ledger,
  block: Named<Block>,
  of: { season: number; asOf: IsoDate; only?: 'lag' | 'harvest'; share?: number },
): BlockCrop {
  const { share = 1 } = of
  const counts = countsOf(ledger, { ...of, block: block.id })
  const alive = vinesOf(block).alive
  const whole = counts.every(({ part }) => part === null)
  const vines = whole ? alive : counts.reduce((sum, part) => sum + (part.vines ?? 0), 0)
  const lag = counts.some(({ at }) => at === 'lag')
  const factor = lag ? growthFactor(ownSeasons(ledger, block.id, of.season)) : factorAtHarvest
  const missing = missingCounts(counts)
  const none = { counts, vines, factor, parts: [], estimate: null, low: null, high: null }
  if (missing) return { ...none, missing }
  const parts = counts.map(({ vines: own, bunches, weight, at }) =>
    cropEstimate({
      vines: own ?? alive,
      bunches: bunches!,
      weight: weight!,
      factor: at === 'lag' ? { value: factor.value * share, cv: factor.cv } : { value: share, cv: 0 },
    }),
  )
  const { estimate, low, high, reason } = cropTotal({ estimates: parts, sharedFactor: true })
  return { ...none, parts, estimate, low, high, missing: low === null ? (parts[0]?.reason ?? reason) : null }
}

/**
 * What a block's crop still brings: the estimate, or the share of it that hangs after a pick in part. A count made after
 * that pick stands for vines still full. Where all was picked, the estimate as it was.
 */
export function hangingCrop(
  ledger: Ledger,
  block: Named<Block>,
  of: { season: number; asOf: IsoDate },
): BlockCrop & { share: number } {
  const share = shareHanging(ledger, { ...of, block: block.id }) || 1
  return { ...blockCrop(ledger, block, { ...of, share }), share }
}

/** Mean bunch weights at lag phase and at harvest of the block's earlier seasons that have both. */
function ownSeasons(
  ledger: Ledger,
  block: string,
  before: number,
): { lagWeight: number; harvestWeight: number }[] {
  const seasons = [...new Set(ledger.crop.map((entry) => entry.season))].filter((season) => season < before)
  return seasons.flatMap((season) => {
    const at = (only: 'lag' | 'harvest') =>
      meanWeight(countsOf(ledger, { block, season, asOf: '9999-12-31', only }))
    const [lagWeight, harvestWeight] = [at('lag'), at('harvest')]
    return lagWeight === null || harvestWeight === null ? [] : [{ lagWeight, harvestWeight }]
  })
}

function meanWeight(counts: readonly Counts[]): number | null {
  const weights = counts.flatMap(({ weight }) => (weight && weight.mean > 0 ? weight.mean : []))
  return weights.length === 0 ? null : weights.reduce((sum, each) => sum + each, 0) / weights.length
}

/** The crop of several blocks together, kg; blocks that use the default growth factor share its error. */
export function totalOf(crops: readonly BlockCrop[]): ReturnType<typeof cropTotal> {
  const estimates = crops.flatMap(({ parts }) => (parts.length > 0 ? parts : [null]))
  return cropTotal({ estimates, sharedFactor: crops.some(({ factor }) => factor.basis === 'default') })
}
