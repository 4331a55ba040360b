import type { GrowthFactor } from '../../agronomy/crop/growth-factor.ts'
import { thinning } from '../../agronomy/crop/thinning.ts'
import { areaOf, vinesOf } from '../../facts/block-size.ts'
import { type BlockCrop, blockCrop } from '../../facts/crop/estimate.ts'
import type { ReportInput } from '../../facts/report.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import { latestOf } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Quantity } from '../../records/quantity.ts'
import { countingFor } from './counting.ts'
import { applyLearned, balanceOf, learned, pastEstimates } from './past.ts'

export interface CropOptions {
  /** Wanted half-width of the 95 % interval as a share of the crop, 0 to 1. */
  error?: number | undefined
  /** Yield to thin to, kg/ha, instead of the block's target. */
  thinTo?: number | undefined
  /** Corrects the estimates by the bias of past ones, with two or more seasons. */
  learned?: boolean | undefined
}

/** Published error of a good estimate: within 10 % (BC wine-grape best-practice guide). */
const WANTED_ERROR = 0.1

export type CropBlock = ReturnType<typeof describe>['data']

/** The report's data about a block, and the crop that it tells of. */
export function describe(block: Named<Block>, input: ReportInput, options: CropOptions) {
  const past = pastEstimates(input.ledger, block, input)
  const lesson = learned(past)
  const counted = blockCrop(input.ledger, block, input)
  const applied = options.learned ? applyLearned(counted, lesson) : null
  const crop = applied?.crop ?? counted
  const { counts, factor, parts } = crop
  const toDo = countingFor(crop, options.error ?? WANTED_ERROR)
  const all = (of: 'bunches' | 'weight') => counts.flatMap((count) => count[of] ?? [])
  const last = (of: 'counted' | 'weighed') => latestOf(counts.flatMap((count) => count[of] ?? [])) ?? null
  const data = {
    block: block.id,
    /** Living vines; missing ones are counted apart and never as zeros. */
    vines: vinesOf(block).alive,
    missingVines: block.missing ?? 0,
    bunchesPerVine: weighted(all('bunches')),
    bunchWeight: kg(weighted(all('weight'))),
    growthFactor: counts.length === 0 ? null : described(factor),
    estimate: kg(crop.estimate),
    /** Ends of a 95 % interval. */
    low: kg(crop.low),
    high: kg(crop.high),
    perHa: crop.estimate === null ? null : { value: crop.estimate / areaOf(block), unit: 'kg/ha' },
    /** What is missing for the estimate or its interval. */
    missing: crop.missing,
    at: counts[0]?.at ?? null,
    counted: last('counted'),
    weighed: last('weighed'),
    vinesCounted: all('bunches').reduce((sum, { n }) => sum + n, 0),
    bunchesWeighed: all('weight').reduce((sum, { n }) => sum + n, 0),
    /** Fewer than ten vines counted. */
    guess: parts.some(({ guess }) => guess),
    parts: counts.flatMap(({ part, vines }, index) =>
      part === null
        ? []
        : [{ part, vines, estimate: kg(parts[index]?.estimate ?? null), ...toDo.parts[index]! }],
    ),
    /** Vines to count, in all and more, for the wanted error; with the bunches as they were weighed. */
    toCount: toDo.toCount,
    /** Bunches to weigh, in all and more, for it; with the vines as they were counted. */
    toWeigh: toDo.toWeigh,
    /** More vines and more bunches that reach it together. */
    toDo: toDo.together,
    thinning: thinningOf(block, crop, options.thinTo),
    /** Estimates of earlier seasons against what was picked, and the bias learned. */
    past,
    /** Fruit of past seasons against the prunings of the winter after. */
    balance: balanceOf(input.ledger, block, input),
    learned: lesson,
    /**
     * Whether the figures above were multiplied by what past estimates teach; `why` says why not where it was asked
     * for.
     */
    learnedApplied: applied && { factor: applied.factor, why: applied.why },
  }
  return { crop, data }
}

/** A weight in kg as reports have it. */
export const kg = (value: number | null): Quantity | null => (value === null ? null : { value, unit: 'kg' })

function weighted(samples: readonly { mean: number; n: number }[]): number | null {
  const n = samples.reduce((sum, sample) => sum + sample.n, 0)
  return n === 0 ? null : samples.reduce((sum, sample) => sum + sample.mean * sample.n, 0) / n
}

function described({ value, low, high, seasons, basis }: GrowthFactor) {
  const source = {
    'none-needed': '1, weighed near harvest',
    own: `own past, ${seasons} season${seasons === 1 ? '' : 's'}`,
    default:
      'default 2, since bunches at lag phase have half their final weight (Fiola, University of Maryland; Wolfe, Oregon State; range: de la Fuente and others 2015)',
  }[basis]
  return { value, low, high, seasons, basis, source }
}

function thinningOf(block: Named<Block>, { counts, vines, factor }: BlockCrop, asked: number | undefined) {
  const perHa = asked ?? block.targets?.yield?.high
  const bunchesPerVine = weighted(counts.flatMap(({ bunches }) => bunches ?? []))
  const weight = weighted(counts.flatMap((count) => count.weight ?? []))
  if (perHa === undefined || !bunchesPerVine || !weight || vines <= 0 || perHa <= 0) return null
  const target = perHa * areaOf(block)
  return {
    target: { value: target, unit: 'kg' },
    ...thinning({ target, vines, bunchWeight: weight * factor.value, bunchesPerVine }),
  }
}
