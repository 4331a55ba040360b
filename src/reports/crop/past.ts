import { cropTotal } from '../../agronomy/crop/crop-total.ts'
import { ravazIndex, usualCropLoad } from '../../agronomy/crop/ravaz-index.ts'
import { estimateError, learnedBias } from '../../agronomy/statistics/estimate-error.ts'
import { vinesOf } from '../../facts/block-size.ts'
import { type BlockCrop, blockCrop } from '../../facts/crop/estimate.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'

/** The seasons up to this one in which a block was picked to the last; where it still hangs in part, none. */
function pickedWhole(
  ledger: Ledger,
  block: Named<Block>,
  { season: current, asOf }: { season: number; asOf: IsoDate },
) {
  const own = ledger.picks.filter(
    (pick) => pick.block === block.id && pick.date <= asOf && pick.season <= current,
  )
  return [...new Set(own.map((pick) => pick.season))].flatMap((season) => {
    const picks = own.filter((pick) => pick.season === season)
    if ((picks.at(-1)!.rest ?? 0) > 0) return []
    /** All that was picked, kg. */
    const weight = picks.reduce((sum, pick) => sum + pick.weight, 0)
    return [{ season, picks, weight }]
  })
}

/**
 * What was estimated in each season that has picks, by the growth factor known at the time, against the picks, in
 * kg. Where the block still hangs in part, the season is left out.
 */
export function pastEstimates(ledger: Ledger, block: Named<Block>, until: { season: number; asOf: IsoDate }) {
  return pickedWhole(ledger, block, until).flatMap(({ season, picks, weight: actual }) =>
    (['lag', 'harvest'] as const).flatMap((at) => {
      const { estimate } = blockCrop(ledger, block, { season, asOf: picks[0]!.date, only: at })
      if (estimate === null || estimate <= 0) return []
      /** (estimate - actual) / actual */
      const error = estimateError({ estimate, actual })
      return [{ season, at, estimate, actual, error }]
    }),
  )
}

/** The factor that past estimates would have had to be multiplied by: those near harvest where there are any, else lag. */
export function learned(past: ReturnType<typeof pastEstimates>) {
  const at = past.some((one) => one.at === 'harvest') ? 'harvest' : past.length > 0 ? 'lag' : null
  return { ...learnedBias(past.filter((one) => one.at === at)), at }
}

/**
 * A block's estimate multiplied by what its past estimates teach, its interval widened by how unsure the lesson is. Left
 * as it is, with the reason, where fewer than two seasons teach it, or where they were estimated at another stage.
 */
export function applyLearned(
  crop: BlockCrop,
  lesson: ReturnType<typeof learned>,
): { crop: BlockCrop; factor: number | null; why: string | null } {
  const { factor, low, high, at } = lesson
  if (factor === null || low === null || high === null)
    return { crop, factor: null, why: lesson.reason ?? 'no past estimate to learn from yet' }
  if (crop.estimate === null) return { crop, factor: null, why: crop.missing }
  if (crop.counts.some((count) => count.at !== at)) {
    const stage = at === 'lag' ? 'at lag phase' : 'near harvest'
    return { crop, factor: null, why: `the past estimates were made ${stage}, this one was not` }
  }
  // One lesson for the whole block: its error stands once, beside the first part's own.
  const lessonHalf = crop.estimate * factor * (Math.log(high / low) / 2)
  const parts = crop.parts.map((part, index) => ({
    ...part,
    estimate: part.estimate * factor,
    halfWidth: part.halfWidth && {
      sampling: Math.hypot(part.halfWidth.sampling * factor, index === 0 ? lessonHalf : 0),
      factor: part.halfWidth.factor * factor,
    },
  }))
  const { estimate, low: least, high: most } = cropTotal({ estimates: parts, sharedFactor: true })
  return { crop: { ...crop, parts, estimate, low: least, high: most }, factor, why: null }
}

/**
 * The crop load of each season that was picked whole and whose prunings were weighed in the winter after it, which stand
 * in the next season's work; the prunings of any other winter say nothing of it.
 */
export function balanceOf(ledger: Ledger, block: Named<Block>, until: { season: number; asOf: IsoDate }) {
  const { alive } = vinesOf(block)
  return pickedWhole(ledger, block, until).flatMap(({ season, weight }) => {
    const weighed = ledger.work.findLast(
      (entry) =>
        entry.block === block.id &&
        entry.season === season + 1 &&
        entry.date <= until.asOf &&
        entry.prunings !== undefined,
    )
    if (!weighed || alive <= 0) return []
    const fruit = weight / alive
    const prunings = weighed.prunings!
    return [
      {
        season,
        /** Day on which the prunings were weighed. */
        pruned: weighed.date,
        /** Of one vine. */
        fruit: { value: fruit, unit: 'kg' },
        prunings: { value: prunings, unit: 'kg' },
        pruningsPerMetre: { value: prunings / block.vine_spacing, unit: 'kg/m' },
        /** kg of fruit for each kg of prunings: the Ravaz index. */
        cropLoad: ravazIndex({ fruit, prunings }),
        /** Span of the index that is usual. */
        usual: usualCropLoad,
      },
    ]
  })
}
