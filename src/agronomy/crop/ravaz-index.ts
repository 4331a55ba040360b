import { requireNotNegative, requirePositive } from '../statistics/require-number.ts'

/**
 * Crop load of a vine, the Ravaz index: fruit picked in the autumn over the prunings of the winter that follows.
 * Usual values are 4 to 10 on a single canopy and 5 to 10 on a divided one; they move with site, variety and climate.
 * Source: Kliewer & Dokoozlian 2005, AJEV 56:170-181 (abstract; volume and pages from memory).
 *
 * @param options fruit and prunings of the same vines, kg; the winter must be the one after the fruit
 * @returns kg of fruit for each kg of prunings
 * @throws RangeError when fruit is negative or prunings are not above zero
 */
export function ravazIndex({ fruit, prunings }: { fruit: number; prunings: number }): number {
  requireNotNegative({ fruit })
  requirePositive({ prunings })
  return fruit / prunings
}

/** Usual span of the Ravaz index, single and divided canopies together (Kliewer & Dokoozlian 2005). */
export const usualCropLoad = { low: 4, high: 10 } as const
