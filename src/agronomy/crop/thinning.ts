import { requirePositive } from '../statistics/require-number.ts'

/**
 * Bunches to keep per vine for a target yield, and to drop: keep = target / (vines x bunch weight at harvest).
 * Derived from the yield formula (Dami, Ohio State). The vine compensates in part: the bunches left grow heavier.
 *
 * @param options target in kg for the block; vines, the bearing ones; bunchWeight at harvest in kg; bunchesPerVine now
 * @returns bunches per vine to keep and drop (not rounded; drop is 0 where the crop is below the target), and the share
 *   of bunches dropped, 0 to 1
 * @throws RangeError when an argument is not above zero
 */
export function thinning(options: {
  target: number
  vines: number
  bunchWeight: number
  bunchesPerVine: number
}): { keep: number; drop: number; share: number } {
  const { target, vines, bunchWeight, bunchesPerVine } = options
  requirePositive(options)
  const keep = Math.min(bunchesPerVine, target / (vines * bunchWeight))
  const drop = bunchesPerVine - keep
  return { keep, drop, share: drop / bunchesPerVine }
}
