import { runningSum } from '../weather/running-sum.ts'

/** Lowest and highest temperature of one day, °C. */
export interface DayTemperatures {
  min: number
  max: number
}

/** Heat of a day that crosses a threshold, above it. */
type Above = (day: DayTemperatures, threshold: number) => number

/** By the mean of the extremes: (min + max) / 2 - threshold, never below zero. */
const average: Above = ({ min, max }, threshold) => Math.max(0, (min + max) / 2 - threshold)

/** Area of a sine wave through min and max: case B of the lower threshold. */
const sine: Above = ({ min, max }, threshold) => {
  const middle = (min + max) / 2
  const amplitude = (max - min) / 2
  const at = Math.asin((threshold - middle) / amplitude)
  return ((middle - threshold) * (Math.PI / 2 - at) + amplitude * Math.cos(at)) / Math.PI
}

/** Area of a triangle through min and max. */
const triangle: Above = ({ min, max }, threshold) => (max - threshold) ** 2 / (2 * (max - min))

const crossing = { average, 'single-sine': sine, 'single-triangle': triangle }

export type DegreeDayMethod = keyof typeof crossing

/** Heat of any day above a threshold: none where all of the day is below it (case A), its mean where all is above (case C). */
function above(method: DegreeDayMethod, day: DayTemperatures, threshold: number): number {
  if (day.max <= threshold) return 0
  return (day.min >= threshold ? average : crossing[method])(day, threshold)
}

/**
 * Degree days of one day from its lowest and highest temperature.
 *
 * `average` is (min + max) / 2 - base, negatives to zero; min and max are not clipped first (that is another
 * method). `single-sine` and `single-triangle` take the area above the base under a curve through both.
 * Without `upper` nothing is cut off, as in most published viticulture. With `upper` the cut-off is horizontal,
 * degree days above base less degree days above upper; for `average` this caps the day's mean, not its maximum.
 *
 * Source: Baskerville & Emin 1969, Ecology 50:514-517; Zalom et al. 1983, UC Leaflet 21373 (both cited from
 * memory; the three cases read at R. L. Snyder, UC Davis, DDsine).
 *
 * @param options min, max, base, upper in °C
 * @returns °C-days, never negative
 * @throws RangeError when a temperature is not finite, min is above max, or upper is below base
 * @example degreeDays({ min: 5, max: 25, base: 10, method: 'single-sine' }) // 6.09
 */
export function degreeDays(
  options: DayTemperatures & { base: number; upper?: number; method: DegreeDayMethod },
): number {
  const { min, max, base, upper, method } = options
  if (![min, max, base, upper ?? base].every(Number.isFinite)) {
    throw new RangeError('degreeDays requires finite temperatures')
  }
  if (min > max) throw new RangeError('degreeDays requires a minimum no higher than the maximum')
  if (upper !== undefined && upper < base)
    throw new RangeError('degreeDays requires upper no lower than base')
  const whole = above(method, options, base)
  return upper === undefined ? whole : Math.max(0, whole - above(method, options, upper))
}

/** A sum over days of which some may be unknown: then it is a lower bound, and `missing` says by how many days. */
export interface DaySum {
  sum: number | null
  missing: number
}

/**
 * Sum of daily values that keeps decimal ties (see `runningSum`). An unknown day is null, never zero.
 *
 * @param daily °C-days of each day, null where unknown
 * @returns the sum of the known days (null where none is known), the number of missing days
 * @throws RangeError when a value is not finite
 */
export function sumDegreeDays(daily: readonly (number | null)[]): DaySum {
  const known = daily.filter((value) => value !== null)
  return { sum: runningSum(known).at(-1) ?? null, missing: daily.length - known.length }
}
