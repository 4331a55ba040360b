import { cropTotal } from '../agronomy/crop-total.ts'
import type { GrowthFactor } from '../agronomy/growth-factor.ts'
import { studentQuantile } from '../agronomy/student.ts'
import { thinning } from '../agronomy/thinning.ts'
import { vinesToCount } from '../agronomy/vines-to-count.ts'
import type { Named } from '../ledger/ledger.ts'
import type { Block } from '../records/block.ts'
import type { IsoDate } from '../records/date.ts'
import type { Quantity } from '../records/quantity.ts'
import { areaOf, vinesOf } from '../rules/facts/block-size.ts'
import { ESTIMATE_CAUTIONS } from './cautions.ts'
import { type BlockCrop, blockCrop } from './crop/estimate.ts'
import { type EstimateRecord, type Learned, learned, pastEstimates } from './crop/past.ts'
import { makeReport, type Report, type ReportInput } from './report.ts'

export interface CropOptions {
  /** Wanted half-width of the 95 % interval as a share of the crop, 0 to 1. */
  error?: number | undefined
  /** Yield to thin to, kg/ha, in place of the block's target. */
  thinTo?: number | undefined
}

/** Published error of a good estimate: within 10 % (BC wine-grape best-practice guide). */
const WANTED_ERROR = 0.1

export interface CropBlock {
  block: string
  /** Living vines; missing ones are counted apart and never as zeros. */
  vines: number
  missingVines: number
  bunchesPerVine: number | null
  bunchWeight: Quantity | null
  growthFactor:
    | (Pick<GrowthFactor, 'value' | 'low' | 'high' | 'seasons' | 'basis'> & { source: string })
    | null
  estimate: Quantity | null
  /** Ends of a 95 % interval. */
  low: Quantity | null
  high: Quantity | null
  perHa: Quantity | null
  /** What lacks for the estimate or for its interval. */
  missing: string | null
  at: 'lag' | 'harvest' | null
  counted: IsoDate | null
  weighed: IsoDate | null
  vinesCounted: number
  bunchesWeighed: number
  /** Fewer than ten vines counted. */
  guess: boolean
  parts: { part: string; vines: number | null; estimate: Quantity | null }[]
  /** Vines to count in all, and more, for the wanted error. */
  toCount: { error: number; needed: number | null; more: number | null; why: string | null }
  thinning: { target: Quantity; keep: number; drop: number; share: number } | null
  /** Estimates of earlier seasons against what was picked, and what they teach. */
  past: EstimateRecord[]
  learned: Learned
}

export interface CropData {
  blocks: CropBlock[]
  total: { estimate: Quantity | null; low: Quantity | null; high: Quantity | null; missing: string | null }
}

/** The crop of each block with its interval, what it rests on, and what more counting would bring. */
export function crop(input: ReportInput, options: CropOptions = {}): Report<CropData> {
  const estimates = input.blocks.map((block) => ({ block, crop: blockCrop(input.ledger, block, input) }))
  const sum = totalOf(estimates.map(({ crop }) => crop))
  const data = {
    blocks: estimates.map(({ block, crop }) => describe(block, { crop, input, options })),
    total: { estimate: kg(sum.estimate), low: kg(sum.low), high: kg(sum.high), missing: sum.reason },
  }
  return makeReport('crop', input, { data, cautions: ESTIMATE_CAUTIONS })
}

/** The crops of several blocks together, kg; the blocks on the default growth factor share its error. */
export function totalOf(crops: readonly BlockCrop[]): ReturnType<typeof cropTotal> {
  const estimates = crops.flatMap(({ parts }) => (parts.length > 0 ? parts : [null]))
  return cropTotal({ estimates, sharedFactor: crops.some(({ factor }) => factor.basis === 'default') })
}

function describe(
  block: Named<Block>,
  { crop, input, options }: { crop: BlockCrop; input: ReportInput; options: CropOptions },
): CropBlock {
  const { counts, factor, parts } = crop
  const all = (of: 'bunches' | 'weight') => counts.flatMap((count) => count[of] ?? [])
  const last = (of: 'counted' | 'weighed') =>
    counts
      .map((count) => count[of])
      .filter((date) => date !== null)
      .sort()
      .at(-1) ?? null
  const past = pastEstimates(input.ledger, block, input)
  return {
    block: block.id,
    vines: vinesOf(block).alive,
    missingVines: block.missing ?? 0,
    bunchesPerVine: weighted(all('bunches')),
    bunchWeight: kg(weighted(all('weight'))),
    growthFactor: counts.length === 0 ? null : { ...pickFactor(factor), source: sourceOf(factor) },
    estimate: kg(crop.estimate),
    low: kg(crop.low),
    high: kg(crop.high),
    perHa: crop.estimate === null ? null : { value: crop.estimate / areaOf(block), unit: 'kg/ha' },
    missing: crop.missing,
    at: counts[0]?.at ?? null,
    counted: last('counted'),
    weighed: last('weighed'),
    vinesCounted: all('bunches').reduce((sum, { n }) => sum + n, 0),
    bunchesWeighed: all('weight').reduce((sum, { n }) => sum + n, 0),
    guess: parts.some(({ guess }) => guess),
    parts: counts.flatMap(({ part, vines }, index) =>
      part === null ? [] : [{ part, vines, estimate: kg(parts[index]?.estimate ?? null) }],
    ),
    toCount: moreToCount(crop, options.error ?? WANTED_ERROR),
    thinning: thinningOf(block, crop, options.thinTo),
    past,
    learned: learned(past),
  }
}

const kg = (value: number | null): Quantity | null => (value === null ? null : { value, unit: 'kg' })

function weighted(samples: readonly { mean: number; n: number }[]): number | null {
  const n = samples.reduce((sum, sample) => sum + sample.n, 0)
  return n === 0 ? null : samples.reduce((sum, sample) => sum + sample.mean * sample.n, 0) / n
}

const pickFactor = ({ value, low, high, seasons, basis }: GrowthFactor) => ({
  value,
  low,
  high,
  seasons,
  basis,
})

function sourceOf({ basis, seasons }: GrowthFactor): string {
  if (basis === 'none-needed') return 'weighed near harvest: nothing left to grow'
  if (basis === 'own') return `own past, ${seasons} season${seasons === 1 ? '' : 's'}`
  return 'default: lag phase at half of the final weight (Fiola, University of Maryland; Wolfe, Oregon State), range after de la Fuente et al. 2015'
}

function moreToCount(crop: BlockCrop, error: number): CropBlock['toCount'] {
  const none = { error, needed: null, more: null }
  const bunches = crop.counts[0]?.bunches
  if (crop.counts.length > 1) return { ...none, why: 'counted in parts: ask for one part at a time' }
  if (!bunches || bunches.sd === null || bunches.mean === 0)
    return { ...none, why: 'two vines or more must be counted first' }
  const part = crop.parts[0]
  if (!part?.halfWidth || part.parts.weight === null)
    return { ...none, why: crop.missing ?? 'bunch weight is missing' }
  const counting = part.parts.bunches ?? 0
  const others = Math.hypot(part.halfWidth.sampling, part.halfWidth.factor) / part.estimate
  const otherError = Math.sqrt(Math.max(0, others ** 2 - (counting * tFor(bunches.n)) ** 2))
  const { needed, more, reason } = vinesToCount({
    cv: bunches.sd / bunches.mean,
    error,
    vines: crop.vines,
    otherError,
    counted: bunches.n,
  })
  return { error, needed, more, why: reason }
}

const tFor = (n: number) => (n < 2 ? 0 : studentQuantile(0.975, n - 1))

function thinningOf(block: Named<Block>, crop: BlockCrop, asked: number | undefined): CropBlock['thinning'] {
  const perHa = asked ?? block.targets?.yield?.high
  const bunches = weighted(crop.counts.flatMap((count) => count.bunches ?? []))
  const weight = weighted(crop.counts.flatMap((count) => count.weight ?? []))
  if (perHa === undefined || !bunches || !weight || crop.vines <= 0 || perHa <= 0) return null
  const target = perHa * areaOf(block)
  const bunchWeight = weight * crop.factor.value
  return {
    target: { value: target, unit: 'kg' },
    ...thinning({ target, vines: crop.vines, bunchWeight, bunchesPerVine: bunches }),
  }
}
