import { requireNotNegative, requirePositive, requireShare } from '../statistics/require-number.ts'

export interface Treatment {
  /** kg or L per ha of the area treated. */
  dose: number
  /** The same unit; null where there is no reference dose. */
  referenceDose: number | null
  /** Share of the block's area that was treated, 0 to 1. */
  share: number
}

/**
 * Treatment frequency index: dose / reference dose x share of the area treated, summed over products and
 * passes. It counts full doses, not passes: a mixture of two products counts as two. A treatment without a
 * reference dose counts 1, whatever its share.
 * @returns the index, and how many treatments had no reference dose
 * @throws RangeError where a dose is negative, a reference not positive or a share outside 0 to 1
 * Sources: Reussir Vigne; La Vigne no. 229, March 2011; wiki tripleperformance (no reference
 * dose).
 */
export function treatmentFrequency(treatments: readonly Treatment[]): {
  index: number
  withoutReference: number
} {
  let index = 0
  let withoutReference = 0
  for (const { dose, referenceDose, share } of treatments) {
    requireNotNegative({ dose })
    requireShare({ share })
    if (referenceDose === null) {
      withoutReference += 1
      index += 1
      continue
    }
    requirePositive({ referenceDose })
    index += (dose / referenceDose) * share
  }
  return { index, withoutReference }
}
