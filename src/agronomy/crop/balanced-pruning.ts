import { requireNotNegative } from '../statistics/require-number.ts'

/** Weight that the rule counts by: one pound, kg. */
const POUND = 0.45359237

/**
 * Buds to leave on a vine by balanced pruning: so many for the first pound of prunings and so many for each further one,
 * part pounds in proportion, up to a most. "30 + 10" is first 30, further 10.
 * Source: Fiola, University of Maryland Extension (the method); the figures belong to the variety.
 *
 * @param options prunings of the vine, kg; first and further, buds; most, buds, none by default
 * @returns buds, not rounded
 * @throws RangeError when a figure is negative
 */
export function budsToLeave(options: {
  prunings: number
  first: number
  further: number
  most?: number
}): number {
  const { prunings, first, further, most = Number.POSITIVE_INFINITY } = options
  requireNotNegative({ prunings, first, further })
  const pounds = prunings / POUND
  const buds = pounds <= 1 ? first * pounds : first + further * (pounds - 1)
  return Math.min(most, buds)
}
