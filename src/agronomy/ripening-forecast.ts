import type { Point } from './regression.ts'
import { fitSlowingLine, type RipeningPrior, reachedBy, type SlowingLine } from './slowing-line.ts'
import { studentCdf } from './student.ts'

/**
 * Noise 0.35 °Brix between samples, worth four samples: between the standard error of 0.25 of a well-spread sample
 * (Rankine, Cellier & Boehm 1962, AJEV 13:58-72) and the 0.57-0.72 between 100-berry lots that the rule of the
 * University of Maryland Extension (Fiola) implies. Rate 0.25 a day, give or take 0.2: 15 °Brix from veraison to
 * harvest in 45-60 days make 0.25-0.33 (calculated); published weekly means reach 0.5, late weeks fall under 0.1.
 */
const PRIOR: RipeningPrior = { noise: 0.35, noiseWeight: 4, rate: 0.25, rateSpread: 0.2 }

/**
 * Paces at which the daily rise may lessen (share a day; below zero it still quickens) and the belief in each
 * before the samples speak. Our own choice, no source: set so that simulated seasons of six shapes hold the true
 * day in about nine of ten intervals (tests/agronomy/sugar-trend-simulation.test.ts).
 */
const PACES: readonly (readonly [number, number])[] = [
  [-0.05, 0.05],
  [-0.02, 0.12],
  [0, 0.28],
  [0.01, 0.18],
  [0.02, 0.17],
  [0.03, 0.12],
  [0.045, 0.08],
]

/** Belief that ripening slows by so much more, a day, once the samples end, however straight it ran so far. */
const FURTHER_SLOWING: readonly (readonly [number, number])[] = [
  [0, 0.75],
  [0.03, 0.15],
  [0.06, 0.1],
]

export interface RipeningForecast {
  /** °Brix a day at the last sample. */
  rate: number
  /** Probability that sugar is rising at all. */
  rising: number
  /** Probability that the block's mean has reached the target x days after the last sample (before: x < 0). */
  reachedBy: (x: number, target: number) => number
}

/**
 * Weighs straight, slowing and quickening lines by how well they fit the samples (Bayesian model averaging), and
 * carries them forward. What still quickens is carried forward straight, since ripening ends by slowing; and some further
 * slowing is allowed for, since the sigmoid of sugar (Sadras, Collins & Soar 2008, AJGWR 14) bends late.
 * Points: x in days, 0 at the last sample; y in °Brix. Throws a RangeError below two points.
 * Source: Hoeting et al. (1999), Bayesian model averaging, Statistical Science 14:382-417 (from memory).
 */
export function forecastRipening(points: readonly Point[]): RipeningForecast {
  const lines = PACES.map(([pace]) => fitSlowingLine(points, pace, PRIOR))
  const support = lines.map((line, i) => line.support + Math.log(PACES[i]![1]))
  const best = Math.max(...support)
  const raw = support.map((s) => Math.exp(s - best))
  const total = raw.reduce((sum, w) => sum + w, 0)
  const average = (of: (line: SlowingLine) => number): number =>
    lines.reduce((sum, line, i) => sum + (raw[i]! / total) * of(line), 0)
  return {
    rate: average((line) => line.rate),
    rising: average((line) => studentCdf(line.rate / line.rateError, line.df)),
    reachedBy: (x, target) => average((line) => chanceReached(line, x, target)),
  }
}

function chanceReached(line: SlowingLine, x: number, target: number): number {
  if (x < 0) return reachedBy(line, x, { target, slowing: line.slowing })
  const pace = Math.max(0, line.slowing)
  return FURTHER_SLOWING.reduce(
    (sum, [more, weight]) => sum + weight * reachedBy(line, x, { target, slowing: pace + more }),
    0,
  )
}
