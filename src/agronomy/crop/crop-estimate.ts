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
  /** Ends of a 95 % interval, kg; null where a part has no standard deviation. */
  low: number | null
  high: number | null
  /** Half-widths of the 95 % interval, kg, from counting and weighing and from the growth factor. */
  halfWidth: { sampling: number; factor: number } | null
  /** Fewer than ten vines counted: a guess rather than an estimate (our limit, no source). */
  guess: boolean
  reason: string | null
}

/**
 * Half-width of the 95 % interval of a mean by Student's t, as a share of the mean; null where one reading or a pooled
 * one tells no spread.
 * @param population how many there are of what was counted or weighed: with all of them known, nothing is unsure
 * Source: Student 1908, Biometrika 6:1-25; finite population correction 1 - n / population, Cochran 1977, "Sampling
 * techniques" (from memory).
 */
export function relativeHalfWidth(
  sample: SampleSummary,
  population = Number.POSITIVE_INFINITY,
): number | null {
  if (sample.mean === 0 || sample.n >= population) return 0
  if (sample.sd === null || sample.n < 2) return null
  const error = (sample.sd / sample.mean) * Math.sqrt((1 - sample.n / population) / sample.n)
  return error * studentQuantile(0.975, sample.n - 1)
}

/**
 * Crop of a block: bearing vines x bunches per vine x bunch weight x growth factor.
 *
 * The interval joins the parts' own relative 95 % half-widths, t for count and weight, normal for the factor, in
 * quadrature (the delta method; Zou & Donner 2008, Stat. Med. 27:1693, from memory), so that it never widens when more is
 * counted at the same spread. Covariance of number and weight of bunches is ignored: where vines with many bunches have
 * light ones, the error is overstated.
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
  const count = relativeHalfWidth(bunches, vines)
  const weighing = relativeHalfWidth(weight)
  const guess = bunches.n < 10 && bunches.n < vines
  if (count === null || weighing === null) {
    const missing = [count === null ? 'bunches per vine' : '', weighing === null ? 'bunch weight' : '']
      .filter(Boolean)
      .join(' and ')
    const reason = `no interval: at least two readings of ${missing} are needed`
    return { estimate, low: null, high: null, halfWidth: null, guess, reason }
  }
  const sampling = estimate * Math.hypot(count, weighing)
  const halfWidth = { sampling, factor: estimate * normal95 * factor.cv }
  const half = Math.hypot(halfWidth.sampling, halfWidth.factor)
  return {
    estimate,
    low: Math.max(0, estimate - half),
    high: estimate + half,
    halfWidth,
    guess,
    reason: null,
  }
}
