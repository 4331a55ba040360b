import { normalQuantile } from './normal.ts'
import { studentQuantile } from './student.ts'

interface SampleSizeOptions {
  /** Standard deviation between readings. */
  sd: number
  /** Wanted half-width of the interval for the mean, in the unit of sd. */
  margin: number
}

/** Rounds up, ignoring floating-point noise in a whole number. */
function roundUp(n: number): number {
  return Math.ceil(n * (1 - 1e-12))
}

/**
 * Smallest number of readings n >= (t sd / margin)^2. Since t, the two-sided value for 95 % with n - 1 degrees of
 * freedom, depends on n, it is found by trying. Never below 3, since no interval is printed from fewer.
 * A reading is whatever was measured by itself: a berry, a bunch, or the pooled juice of a bag.
 * Throws a RangeError for a negative sd, a margin that is not above 0.
 * Source: textbook formula; the mean's interval by Student (1908).
 */
export function readingsNeeded({ sd, margin }: SampleSizeOptions): number {
  if (!(sd >= 0 && Number.isFinite(sd)))
    throw new RangeError('sample size requires a standard deviation of 0 or more')
  if (!(margin > 0 && Number.isFinite(margin))) throw new RangeError('sample size requires a margin above 0')
  let n = Math.max(3, roundUp(((normalQuantile(0.975) * sd) / margin) ** 2))
  while (n < ((studentQuantile(0.975, n - 1) * sd) / margin) ** 2 * (1 - 1e-12)) n++
  return n
}
