import type { Point } from '../statistics/regression.ts'
import { studentCdf } from '../statistics/student.ts'
import {
  chanceAbove,
  fitSlowingLine,
  type Pace,
  type RipeningPrior,
  reachOf,
  type SlowingLine,
} from './slowing-line.ts'

/**
 * Noise near the 0.25 °Brix of a well-spread sample (Rankine, Cellier & Boehm 1962, AJEV 13:58-72), but worth one
 * sample only, so that it follows the residuals: 0.57-0.72 between 100-berry lots, which the rule of the University of
 * Maryland Extension (Fiola) implies, is as usual. Rate 0.22 a day, give or take 0.14: 15 °Brix from veraison to harvest
 * in 45-60 days make 0.25-0.33 (calculated), and late weeks fall under 0.1.
 */
const PRIOR: RipeningPrior = { noise: 0.2, noiseWeight: 1, rate: 0.22, rateSpread: 0.14 }

/** Most samples' worth of belief that readings within samples add, since readings may share an error. */
const MOST_READINGS = 3

/** Slowing by 1.5 % a day, give or take 1.9 %, before the samples speak. */
const SLOWING = { mean: 0.015, spread: 0.019 }
const SLOWINGS = [-0.06, -0.04, -0.02, 0, 0.01, 0.02, 0.03, 0.045, 0.06]

/** Belief in a bend: the sigmoid of sugar (Sadras, Collins & Soar 2008, AJGWR 14) bends late. */
const BENDS = [
  [0, 0.5],
  [0.0015, 0.1],
  [0.003, 0.2],
  [0.006, 0.2],
] as const

/**
 * The paces weighed, and the logarithm of the belief in each. Our own choice, no source: set so that simulated seasons,
 * straight, slowing and sigmoid, hold the true day in about nine of ten intervals
 * (tests/agronomy/ripening/sugar-trend-simulation.test.ts).
 */
const PACES: readonly (Pace & { belief: number })[] = SLOWINGS.flatMap((slowing) =>
  BENDS.map(([bend, share]) => ({
    ...{ slowing, bend },
    belief: Math.log(share) - 0.5 * ((slowing - SLOWING.mean) / SLOWING.spread) ** 2,
  })),
)

/**
 * Belief that ripening breaks after the last sample and goes on at a share of its pace, which no sample can show before:
 * sugar in time has been taken for a broken line (Sadras & Petrie 2011, AJGWR 17:190-198, from memory). The figures are
 * our choice, no source; tests/agronomy/ripening/sugar-trend-held-out.test.ts prints what they do.
 */
const BREAK = { belief: 0.03, pace: 0.5 }

/** Lines that bear less than this share of the weight are left out: our choice, far below what a day shows. */
const LEAST_WEIGHT = 1e-4

/** Spread between readings within samples, as it bears on the samples' means. */
export interface ReadingNoise {
  /** Variance of a sample's mean, °Brix squared. */
  variance: number
  /** Degrees of freedom that it rests on. */
  df: number
}

export interface RipeningForecast {
  /** °Brix a day at the last sample. */
  rate: number
  /** Probability that sugar is rising at all. */
  rising: number
  /** Probability that the block's mean has reached the target x days after the last sample (before: x < 0). */
  reachedBy: (x: number, target: number) => number
}

/** The prior joined with what the readings within samples say of their noise. */
function priorWith(readings: ReadingNoise | undefined): RipeningPrior {
  if (!readings) return PRIOR
  const added = Math.min(readings.df, MOST_READINGS)
  const noiseWeight = PRIOR.noiseWeight + added
  const squares = PRIOR.noiseWeight * PRIOR.noise ** 2 + added * readings.variance
  const noise = Math.sqrt(squares / noiseWeight)
  return { ...PRIOR, noise, noiseWeight, rateSpread: PRIOR.rateSpread * (noise / PRIOR.noise) }
}

/** A line whose level is unsure by so much beside its own error. */
function shifted(line: SlowingLine, error: number): SlowingLine {
  if (error === 0) return line
  return { ...line, spreadAt: (reach) => Math.hypot(line.spreadAt(reach), error) }
}

/**
 * Weighs straight, slowing, quickening and bending lines by how well they fit the samples (Bayesian model averaging),
 * and carries them forward. Points: x in days, 0 at the last sample; y in °Brix. `shiftError` is the standard error, °Brix,
 * of what was added to all points alike, which no fit to them shows. Throws a RangeError below two points.
 * Source: Hoeting et al. (1999), Bayesian model averaging, Statistical Science 14:382-417 (from memory).
 */
export function forecastRipening(
  points: readonly Point[],
  { readings, shiftError = 0 }: { readings?: ReadingNoise | undefined; shiftError?: number } = {},
): RipeningForecast {
  const prior = priorWith(readings)
  const fitted = PACES.map((pace) => ({ pace, line: fitSlowingLine(points, pace, prior) }))
  const support = fitted.map(({ pace, line }) => line.support + pace.belief)
  const best = Math.max(...support)
  const weighed = fitted.map((each, i) => ({ ...each, weight: Math.exp(support[i]! - best) }))
  const all = weighed.reduce((sum, { weight }) => sum + weight, 0)
  const kept = weighed
    .filter(({ weight }) => weight >= LEAST_WEIGHT * all)
    .map((each) => ({ ...each, line: shifted(each.line, shiftError) }))
  const total = kept.reduce((sum, { weight }) => sum + weight, 0)
  const average = (of: (line: SlowingLine, pace: Pace) => number): number =>
    kept.reduce((sum, { line, pace, weight }) => sum + (weight / total) * of(line, pace), 0)
  return {
    rate: average((line) => line.rate),
    rising: average((line) => studentCdf(line.rate / line.rateError, line.df)),
    reachedBy: (x, target) =>
      average((line, pace) => {
        const reach = reachOf(x, pace)
        const steady = chanceAbove(line, reach, target)
        if (x <= 0) return steady
        return steady + BREAK.belief * (chanceAbove(line, reach * BREAK.pace, target) - steady)
      }),
  }
}
