import { cropTotal } from '../../agronomy/crop/crop-total.ts'
import type { BlockCrop } from '../../facts/crop/estimate.ts'
import type { Learned } from './past.ts'

/**
 * A block's estimate multiplied by what its past estimates teach, its interval widened by how unsure the lesson is. Left
 * as it is, with the reason, where fewer than two seasons teach it, or where they were estimated at another stage.
 */
export function applyLearned(
  crop: BlockCrop,
  lesson: Learned,
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
