import { requirePositive } from './require-number.ts'
import { studentQuantile } from './student.ts'

/** One season's estimate and what was picked, kg. */
interface EstimateAndActual {
  estimate: number
  actual: number
}

/**
 * Error of an estimate: by which share of the actual crop it was too high (positive) or too low.
 * Published: wineries want 5 %, growers deliver about 30 % (Dunn 2016, National Wine and Grape Industry Centre).
 *
 * @throws RangeError when estimate or actual is not above zero
 */
export function estimateError({ estimate, actual }: EstimateAndActual): number {
  requirePositive({ estimate, actual })
  return (estimate - actual) / actual
}

/**
 * The factor by which to multiply the next estimate, from past ones: the geometric mean of actual / estimate. While its
 * interval includes 1, the bias may be chance.
 *
 * @param seasons estimate and actual of past seasons, kg
 * @returns factor and its 95 % interval by Student's t on the logarithms; null, with the reason, with too few seasons
 * @throws RangeError when a weight is not above zero
 */
export function learnedBias(seasons: readonly EstimateAndActual[]): {
  factor: number | null
  low: number | null
  high: number | null
  seasons: number
  reason: string | null
} {
  for (const { estimate, actual } of seasons) requirePositive({ estimate, actual })
  const n = seasons.length
  if (n === 0)
    return {
      factor: null,
      low: null,
      high: null,
      seasons: 0,
      reason: 'no season has both a crop estimate and a pick',
    }
  const logs = seasons.map(({ estimate, actual }) => Math.log(actual / estimate))
  const mean = logs.reduce((sum, log) => sum + log, 0) / n
  const factor = Math.exp(mean)
  if (n === 1)
    return { factor, low: null, high: null, seasons: 1, reason: 'one season does not tell bias from chance' }
  const variance = logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / (n - 1)
  const half = studentQuantile(0.975, n - 1) * Math.sqrt(variance / n)
  return { factor, low: Math.exp(mean - half), high: Math.exp(mean + half), seasons: n, reason: null }
}
