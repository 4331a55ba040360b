import { requireNotNegative, requirePositive } from './require-number.ts'

/**
 * An amount rounded to what a scale or a measuring jug can show.
 * @param amount any unit
 * @param step the scale's step in the same unit
 * @returns the nearest whole number of steps and its effect on the amount in % (2 is 2 % too much), or nulls
 *   with the reason where the amount is less than half a step and would vanish
 * @throws RangeError where the amount is negative or the step not positive
 */
export function roundForScale(
  amount: number,
  step: number,
): { amount: number; effect: number; reason: null } | { amount: null; effect: null; reason: string } {
  requireNotNegative({ amount })
  requirePositive({ step })
  if (amount === 0) return { amount: 0, effect: 0, reason: null }
  const steps = Math.round(amount / step)
  if (steps === 0) return { amount: null, effect: null, reason: 'less than half a step of the scale' }
  const rounded = Number((steps * step).toPrecision(15))
  return { amount: rounded, effect: (rounded / amount - 1) * 100, reason: null }
}
