import { normalQuantile } from '../statistics/normal.ts'
import { requireNotNegative } from '../statistics/require-number.ts'
import { studentQuantile } from '../statistics/student.ts'

const normal95 = normalQuantile(0.975)

/** A sample's mean, standard deviation (null for one reading or a pooled one) and size, as `meanInterval` gives. */
export interface SampleSummary {
  mean: number
  sd: number | null
  n: number
}

export interface CropEstimate {
  /** kg */
  estimate: number
  /** kg; null where a part has no standard deviation. */
  standardError: number | null
  /** Ends of a 95 % interval, kg. */
  low: number | null
  high: number | null
  /** Relative standard error that each part brings, 0 to 1: which one to work on. */
  parts: { bunches: number | null; weight: number | null; factor: number }
  /** Half-widths of the 95 % interval, kg, from counting and weighing and from the growth factor. */
  halfWidth: { sampling: number; factor: number } | null
  /** Fewer than ten vines counted: a guess rather than an estimate (our limit, no source). */
  guess: boolean
  reason: string | null
}

/** Relative standard error of a mean, and half-width in units of the mean by Student's t. */
function meanError(sample: SampleSummary, population: number): { error: number; half: number } | null {
  if (sample.mean === 0) return { error: 0, half: 0 }
  if (sample.n >= population) return { error: 0, half: 0 }
  if (sample.sd === null || sample.n < 2) return null
  const error = (sample.sd / sample.mean) * Math.sqrt((1 - sample.n / population) / sample.n)
  return { error, half: error * studentQuantile(0.975, sample.n - 1) }
}

/**
 * Crop of a block: bearing vines x bunches per vine x bunch weight x growth factor.
 *
 * Relative standard error: square root of the sum of the parts' squared relative errors (delta method). Covariance of
 * number and weight of bunches is ignored: where vines with many bunches have light ones, the error is overstated.
 * The count takes the finite population correction 1 - n / vines. The interval joins the parts' own 95 % half-widths,
 * t for count and weight, normal for the factor, in quadrature (Zou & Donner 2008, Stat. Med. 27:1693, from memory),
 * so that it never widens when more is counted at the same spread.
 * Source: Dami, Ohio State, "How to estimate grape yields"; Fiola, Univ. Maryland Extension (lag phase).
 *
 * Vines weighed whole have no such covariance: give their kg as `bunches`, with `weight: { mean: 1, sd: 0, n: Infinity }`.
 *
 * @param options vines, the bearing ones; bunches per vine; weight of a bunch in kg; factor with its coefficient of
 *   variation (0 to 1), 1 and 0 where the bunches were weighed at harvest
 * @throws RangeError when a figure is negative or not finite
 */
export function cropEstimate(options: {
  vines: number
  bunches: SampleSummary
  weight: SampleSummary
  factor: { value: number; cv: number }
}): CropEstimate {
  const { vines, bunches, weight, factor } = options
  requireNotNegative({ vines, bunchesPerVine: bunches.mean, bunchWeight: weight.mean })
  requireNotNegative({ growthFactor: factor.value, growthFactorVariation: factor.cv })
  const estimate = vines * bunches.mean * weight.mean * factor.value
  const count = meanError(bunches, vines)
  const weighing = meanError(weight, Number.POSITIVE_INFINITY)
  const parts = { bunches: count?.error ?? null, weight: weighing?.error ?? null, factor: factor.cv }
  const guess = bunches.n < 10 && bunches.n < vines
  if (!count || !weighing) {
    const missing = [count ? '' : 'bunches per vine', weighing ? '' : 'bunch weight']
      .filter(Boolean)
      .join(' and ')
    const reason = `no interval: at least two readings of ${missing} are needed`
    return { estimate, standardError: null, low: null, high: null, parts, halfWidth: null, guess, reason }
  }
  const sampling = estimate * Math.hypot(count.half, weighing.half)
  const halfWidth = { sampling, factor: estimate * normal95 * factor.cv }
  const half = Math.hypot(halfWidth.sampling, halfWidth.factor)
  return {
    estimate,
    standardError: estimate * Math.hypot(count.error, weighing.error, factor.cv),
    low: Math.max(0, estimate - half),
    high: estimate + half,
    parts,
    halfWidth,
    guess,
    reason: null,
  }
}
