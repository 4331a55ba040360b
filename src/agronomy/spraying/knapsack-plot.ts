import { requirePositive } from '../statistics/require-number.ts'

/**
 * Area of the plot of the 1/128-acre method in m²: 340.3125 square feet. A US gallon has 128 fluid ounces,
 * so the fluid ounces sprayed on the plot are the US gallons per acre.
 * Source: Utah State University Extension 2014-03; international foot of 0.3048 m.
 */
export const PLOT_AREA = (43_560 / 128) * 0.3048 ** 2

/**
 * Length to walk so that a swath of this width covers the 1/128-acre plot.
 * @param swath m, the width that is really sprayed (or the nozzle spacing)
 * @returns m
 * @throws RangeError where the swath is not positive
 * Source: Utah State University Extension 2014-03; Clemson University table.
 */
export function courseLength(swath: number): number {
  requirePositive({ swath })
  return PLOT_AREA / swath
}
