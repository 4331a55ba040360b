import { runningSum } from '../weather/running-sum.ts'
import type { Hemisphere, MonthDay } from './season-window.ts'

/**
 * First day of the base-0 sum for flowering and veraison. The papers say day 60, which is 29 February in a leap
 * year; here it is always 1 March. Source: Parker et al. 2011, Aust. J. Grape Wine Res. 17:206-216.
 * The southern date is from memory and not verified.
 */
export const stageSumStart: Record<Hemisphere, MonthDay> = {
  north: { month: 3, day: 1 },
  south: { month: 8, day: 29 },
}

/**
 * First day on which the sum of daily means above 0 °C reaches a requirement; a tie counts as reached. Unknown days add
 * nothing, so that with any the true day may be earlier.
 * Source: Parker et al. 2011, Aust. J. Grape Wine Res. 17:206-216, and 2020 (see the start days above).
 *
 * @param options startDay as a day number (days since 1970-01-01); means in °C of each day from then, null where
 *   unknown; requirement in °C-days
 * @returns the day number, null where the sum is not reached
 * @throws RangeError when the requirement is not a positive number or a mean is not finite
 */
export function heatStage(options: {
  startDay: number
  means: readonly (number | null)[]
  requirement: number
}): number | null {
  const { startDay, means, requirement } = options
  if (!(requirement > 0 && Number.isFinite(requirement))) {
    throw new RangeError('heatStage requires a requirement above zero')
  }
  const sums = runningSum(means.map((mean) => (mean === null ? 0 : Math.max(0, mean))))
  const index = sums.findIndex((sum) => sum >= requirement)
  return index < 0 ? null : startDay + index
}
