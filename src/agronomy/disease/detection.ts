import { incidence } from './incidence.ts'

const MOST_UNITS = 1e9

/**
 * Fewest units to look at so that at least one affected one is found in 19 of 20 cases where the share affected is
 * `share`: ceil(ln 0.05 / ln(1 - share)). Units must be random and independent, which leaves of one vine are not.
 * Standard formula, from memory.
 * Throws a RangeError unless the share lies between 0 and 1.
 */
export function unitsToDetect(share: number): number {
  if (!(share > 0 && share < 1))
    throw new RangeError(`unitsToDetect requires a share between 0 and 1, got ${share}`)
  const exact = Math.log(0.05) / Math.log1p(-share)
  return Math.max(1, Math.ceil(exact - 1e-9))
}

/**
 * Fewest units to look at so that the Wilson interval around an expected share is at most `halfWidth` either way,
 * half its whole width; less the `looked` already seen, never below 0. Both are shares, 0 to 1.
 * Throws a RangeError for a share outside 0 to 1 or a half width that isn't between 0 and 0.5.
 */
export function unitsForPrecision(
  expected: { share: number; looked?: number },
  { halfWidth }: { halfWidth: number },
): number {
  const { share, looked = 0 } = expected
  if (!(share >= 0 && share <= 1 && halfWidth > 0 && halfWidth < 0.5))
    throw new RangeError(`unitsForPrecision can't reach ${share} within ${halfWidth}`)
  const enough = (units: number) => {
    const { low, high } = incidence(share * units, units)!
    return (high - low) / 2 <= halfWidth + 1e-12
  }
  let least = 0
  let most = 1
  while (!enough(most) && most < MOST_UNITS) most *= 2
  if (most >= MOST_UNITS)
    throw new RangeError(`unitsForPrecision: ${halfWidth} is too fine to reach by counting`)
  while (most - least > 1) {
    const middle = Math.floor((least + most) / 2)
    if (enough(middle)) most = middle
    else least = middle
  }
  return Math.max(0, most - looked)
}
