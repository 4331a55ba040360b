import type { Point } from '../statistics/regression.ts'
import { studentCdf } from '../statistics/student.ts'

/**
 * What is held about ripening before the samples speak, in °Brix and days; it matters with few samples and
 * fades with more.
 */
export interface RipeningPrior {
  /** Spread between samples around the block's mean, and how many samples' worth that is believed. */
  noise: number
  noiseWeight: number
  /** Rate of ripening at the last sample, per day, and its spread. */
  rate: number
  rateSpread: number
}

/**
 * How the daily rise changes: at x = 0 it lessens by the share `slowing` a day, and that share itself grows by `bend`
 * a day. Both zero: a straight line. Bend zero: a rise that dies away evenly. Else the rise is a bell in time and sugar
 * a sigmoid.
 */
export interface Pace {
  slowing: number
  bend: number
}

/** One line of a known pace, fitted: level and rate at x = 0, and how well it fits. */
export interface SlowingLine {
  level: number
  rate: number
  rateError: number
  df: number
  /** Logarithm of the marginal likelihood, up to a constant shared by all fits to the same points. */
  support: number
  /** Standard error of level + rate x reach. */
  spreadAt: (reach: number) => number
}

/** Abscissae and weights of the Gauss-Legendre rule of eight points (Abramowitz & Stegun 1964, table 25.4, from memory). */
const RULE: readonly (readonly [number, number])[] = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
]

/** How far a rate of 1 at x = 0 carries in x days: the integral of exp(-slowing u - bend u² / 2). */
export function reachOf(x: number, { slowing, bend }: Pace): number {
  if (bend === 0) return slowing === 0 ? x : -Math.expm1(-slowing * x) / slowing
  const rise = (u: number): number => Math.exp(-u * (slowing + (bend * u) / 2))
  const half = x / 2
  let sum = 0
  for (const [at, weight] of RULE) sum += weight * (rise(half * (1 - at)) + rise(half * (1 + at)))
  return half * sum
}

/**
 * Fits y = level + rate x reach(x) for one given pace. The level is free; rate and noise lean on the prior
 * (normal-inverse-gamma, so that the spread follows Student's t with df = noise weight + n - 1). x in days, 0 at the
 * last sample. Throws a RangeError below two points.
 * Source: Bayesian linear regression with a conjugate prior, textbook (from memory).
 */
export function fitSlowingLine(points: readonly Point[], pace: Pace, prior: RipeningPrior): SlowingLine {
  const n = points.length
  if (n < 2) throw new RangeError('fitSlowingLine requires two points')
  const yMean = points.reduce((sum, p) => sum + p.y, 0) / n
  const reach = points.map((p) => reachOf(p.x, pace))
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
    level: yMean - rate * reachMean,
    rate,
    rateError: s / Math.sqrt(precision),
    df,
    support: -0.5 * Math.log(precision) - 0.5 * df * Math.log(total),
    spreadAt: (at) => s * Math.sqrt(1 / n + (at - reachMean) ** 2 / precision),
  }
}

/** Probability that the line is at or above the target after so much reach. */
export function chanceAbove(line: SlowingLine, reach: number, target: number): number {
  return studentCdf((line.level + line.rate * reach - target) / line.spreadAt(reach), line.df)
}
