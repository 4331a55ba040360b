import { requireNotNegative } from '../statistics/require-number.ts'

/** Heat capacity of grapes, kJ for each kg and °C. From memory. */
const HEAT_CAPACITY = 3.7

/**
 * Heat to take out of picked grapes to cool them, kWh; what the cooler itself draws is another matter.
 * Source: weight x heat capacity x difference, textbook; the heat capacity is from memory.
 *
 * @param options weight, kg; from and to, °C
 * @returns kWh; 0 where the grapes are as cool already
 * @throws RangeError when the weight is negative or a temperature is not finite
 */
export function coolingHeat({ weight, from, to }: { weight: number; from: number; to: number }): number {
  requireNotNegative({ weight })
  if (!Number.isFinite(from - to)) throw new RangeError('coolingHeat requires finite temperatures')
  return (weight * HEAT_CAPACITY * Math.max(0, from - to)) / 3600
}
