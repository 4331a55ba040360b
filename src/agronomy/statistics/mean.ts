import { studentQuantile } from './student.ts'

export interface MeanInterval {
  n: number
  mean: number
  /** Standard deviation between the readings; null below two. */
  sd: number | null
  /** Ends of the interval for the mean; null below three readings. */
  low: number | null
  high: number | null
}

/**
 * Mean of readings with its 95 % interval by Student's t.
 * No interval from two readings: with one degree of freedom t is 12.7, and such an interval says nothing
 * that a grower can use. `readings` and the result share one unit.
 * Throws a RangeError when there is no reading, or one is not finite.
 * Source: Student (1908), Biometrika 6:1-25.
 */
export function meanInterval(readings: readonly number[]): MeanInterval {
  const n = readings.length
  if (n === 0) throw new RangeError('meanInterval requires one reading')
  if (!readings.every(Number.isFinite)) throw new RangeError('meanInterval requires finite readings')
  const mean = readings.reduce((sum, y) => sum + y, 0) / n
  if (n < 2) return { n, mean, sd: null, low: null, high: null }
  const sd = Math.sqrt(readings.reduce((sum, y) => sum + (y - mean) ** 2, 0) / (n - 1))
  if (n < 3) return { n, mean, sd, low: null, high: null }
  let half: number | undefined
  // Calculated on demand: most callers need only the mean, and the quantile takes a hundred times as long.
  const halfWidth = () => (half ??= (studentQuantile(0.975, n - 1) * sd) / Math.sqrt(n))
  return {
    n,
    mean,
    sd,
    get low() {
      return mean - halfWidth()
    },
    get high() {
      return mean + halfWidth()
    },
  }
}
