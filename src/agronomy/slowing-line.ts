import type { Point } from './regression.ts'
import { studentCdf } from './student.ts'

/**
 * What is held about ripening before the samples speak, in °Brix and days; it matters with few samples and
 * fades with more.
 */
export interface RipeningPrior {
  /** Spread between lots around the block's mean, and how many samples' worth that is believed. */
  noise: number
  noiseWeight: number
  /** Rate of ripening at the last sample, per day, and its spread. */
  rate: number
  rateSpread: number
}

/** One line that slows at a known pace, fitted: level and rate at x = 0, their spread, and how well it fits. */
export interface SlowingLine {
  slowing: number
  level: number
  rate: number
  rateError: number
  df: number
  /** Logarithm of the marginal likelihood, up to a constant shared by all fits to the same points. */
  support: number
  /** Spread of level + rate x reach. */
  spreadAt: (reach: number) => number
}

/** How far a rate of 1 carries in x days when it slows by the share `slowing` a day: (1 - e^-kx) / k. */
export function reachOf(x: number, slowing: number): number {
  return slowing === 0 ? x : -Math.expm1(-slowing * x) / slowing
}

/**
 * Fits y = level + rate (1 - e^-kx) / k for one given k: the rate of rise falls by the share k a day. k = 0 is the
 * straight line. The level is free; rate and noise lean on the prior (normal-inverse-gamma, so that the spread
 * follows Student's t with df = noise weight + n - 1). x in days, 0 at the last sample.
 * Throws a RangeError below two points.
 * Source: Bayesian linear regression with a conjugate prior, textbook (from memory).
 */
export function fitSlowingLine(points: readonly Point[], slowing: number, prior: RipeningPrior): SlowingLine {
  const n = points.length
  if (n < 2) throw new RangeError('fitSlowingLine requires two points')
  const yMean = points.reduce((sum, p) => sum + p.y, 0) / n
  const reach = points.map((p) => reachOf(p.x, slowing))
  const reachMean = reach.reduce((sum, r) => sum + r, 0) / n
  const belief = (prior.noise / prior.rateSpread) ** 2
  const spread = reach.reduce((sum, r) => sum + (r - reachMean) ** 2, 0)
  const product = points.reduce((sum, p, i) => sum + (reach[i]! - reachMean) * (p.y - yMean), 0)
  const precision = spread + belief
  const rate = (product + belief * prior.rate) / precision
  const squares = points.reduce((sum, p, i) => sum + (p.y - yMean - rate * (reach[i]! - reachMean)) ** 2, 0)
  const df = prior.noiseWeight + n - 1
  const total = prior.noiseWeight * prior.noise ** 2 + squares + belief * (rate - prior.rate) ** 2
  const s = Math.sqrt(total / df)
  return {
    slowing,
    level: yMean - rate * reachMean,
    rate,
    rateError: s / Math.sqrt(precision),
    df,
    support: -0.5 * Math.log(precision) - 0.5 * df * Math.log(total),
    spreadAt: (at) => s * Math.sqrt(1 / n + (at - reachMean) ** 2 / precision),
  }
}

/** Probability that the line is at or above the target at x, having slowed by `slowing` a day from x = 0 on. */
export function reachedBy(
  line: SlowingLine,
  x: number,
  { target, slowing }: { target: number; slowing: number },
): number {
  const reach = reachOf(x, slowing)
  return studentCdf((line.level + line.rate * reach - target) / line.spreadAt(reach), line.df)
}
