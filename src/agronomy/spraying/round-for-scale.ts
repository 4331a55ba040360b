import { exceeds } from '../statistics/exceeds.ts'
import { requireNotNegative, requirePositive } from '../statistics/require-number.ts'

/**
 * An amount rounded to what a scale or a measuring jug can show.
 * @param amount any unit
 * @param step the scale's step in the same unit
 * @param most what may not be passed, in the same unit; an amount that is above it by itself is rounded as if there
 *   were none
 * @returns the nearest whole number of steps, or the one below where that passes the most; null with the reason where
 *   nothing would be left
 * @throws RangeError where the amount is negative or the step not positive
 */
export function roundForScale(
  amount: number,
  step: number,
  most = Number.POSITIVE_INFINITY,
): { amount: number; reason: null } | { amount: null; reason: string } {
  requireNotNegative({ amount })
  requirePositive({ step })
  if (amount === 0) return { amount: 0, reason: null }
  const nearest = Math.round(amount / step)
  if (nearest === 0) return { amount: null, reason: 'less than half a step of the scale' }
  const passes = !exceeds(amount, most) && exceeds(nearest * step, most)
  const steps = passes ? nearest - 1 : nearest
  if (steps === 0)
    return { amount: null, reason: 'less than a step of the scale, and a whole one is over the label' }
  return { amount: Number((steps * step).toPrecision(15)), reason: null }
}
