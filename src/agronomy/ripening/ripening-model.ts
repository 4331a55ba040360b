import { highest } from '../statistics/extremes.ts'
import { predict, type State, update } from './kalman-filter.ts'
import type { RipeningPrior, Shares } from './ripening-prior.ts'
import type { Step } from './smoother.ts'
import type { Warmth } from './warmth.ts'

/** A reading of the block's mean. */
export interface Reading {
  /** Day number. */
  day: number
  value: number
  /** Variance of its error, apart from that between days of sampling. */
  variance: number
  /** A sample, whose error between days of sampling comes on top; false for a stage of growth. */
  sampled: boolean
}

/** One point of the grid: the parameters in which the model isn't linear. */
export interface Parameters {
  slowing: number
  between: number
  wander: number
  warmth: number
}

/** The posterior on the day of the last reading at one point of the grid. */
export interface Believed extends Parameters {
  state: State
  /** Posterior probability, adding up to 1 over the grid. */
  share: number
}

/** What is left of a swing on the next day: own choice, no source. */
export const MEMORY = Math.exp(-1 / 14)
/** Share of a swing's variance that is new each day. */
const FRESH = 1 - MEMORY ** 2
/** The slowest rate by which swings are measured, in multiples of the prior's mean. */
const LEAST_RATE = 0.1
/** Bounds of the effect of temperature on a day's pace. Own choice, no source. */
const PACES = { least: 0.25, most: 1.8 }
/** Points with less than this share of the best point's probability are left out: the effect is far below a day. */
const LEAST_SHARE = 5e-3
/** Without temperatures every day counts as usual. */
const ONE_PACE: Shares = [[0, 1]]

/** How fast a day is, in multiples of a usual one, where it is so many °C warmer than usual. */
export function paceOn(warmth: number, warmer: number | undefined): number {
  if (warmer === undefined || warmth === 0) return 1
  return Math.min(PACES.most, Math.max(PACES.least, 1 + warmth * warmer))
}

/**
 * The posterior of a season's readings at each point of the grid, weighted by prior and likelihood (Hoeting et al.
 * 1999, Statistical Science 14:382-401).
 *
 * The first reading sets the level, as from a diffuse start (Durbin & Koopman 2012, chapter 5), and so adds nothing to
 * the likelihood.
 *
 * @param readings one at least, in order of days
 */
export function believe(readings: readonly Reading[], prior: RipeningPrior, warmth: Warmth): Believed[] {
  const from = readings[0]!.day
  const days = Array.from({ length: readings.at(-1)!.day - from + 1 }, (_, at) => warmth(from + at))
  const isWarmthKnown = days.some((warmer) => warmer !== undefined)
  const found: (Believed & { support: number })[] = []
  for (const [warmthValue, warmthShare] of isWarmthKnown ? prior.warmth : ONE_PACE) {
    const paces = days.map((warmer) => paceOn(warmthValue, warmer))
    for (const [slowing, slowingShare] of prior.slowing)
      for (const [wander, wanderShare] of prior.wander)
        for (const [between, betweenShare] of prior.between) {
          const point = { slowing, between, wander, warmth: warmthValue }
          const { state, logDensity } = filter(readings, { point, paces, prior })
          const belief = warmthShare * slowingShare * wanderShare * betweenShare
          found.push({ ...point, state, share: 0, support: Math.log(belief) + logDensity })
        }
  }
  return weighed(found)
}

function weighed(found: readonly (Believed & { support: number })[]): Believed[] {
  const best = highest(found.map(({ support }) => support))
  const kept = found.filter(({ support }) => Math.exp(support - best) >= LEAST_SHARE)
  const total = kept.reduce((sum, { support }) => sum + Math.exp(support - best), 0)
  return kept.map(({ support, ...point }) => ({ ...point, share: Math.exp(support - best) / total }))
}

/** Moves a state forward by one day at a point of the grid, in place; the size of swings follows the current rate. */
export function nextDay(state: State, pace: number, point: Parameters, prior: RipeningPrior): void {
  const { slowing, wander } = point
  const swing = wander * Math.max(LEAST_RATE * prior.rate.mean, state.rate - slowing * state.level)
  predict(state, pace, { slowing, memory: MEMORY, swingNoise: swing * swing * FRESH })
}

/** Runs the filter. Its steps take most of a window's time, so `steps` are kept only where needed. */
export function filter(
  readings: readonly Reading[],
  of: { point: Parameters; paces: readonly number[]; prior: RipeningPrior; steps?: Step[] },
): { state: State; logDensity: number } {
  const { point, paces, prior, steps } = of
  const { at } = prior.rate
  const { mean, spread } = prior.learned?.get(point.slowing) ?? prior.rate
  const [first, ...later] = readings
  const noise = (reading: Reading) => reading.variance + (reading.sampled ? point.between ** 2 : 0)
  const begun = Math.max(LEAST_RATE * mean, mean + point.slowing * (at - first!.value))
  const state: State = {
    level: first!.value,
    swing: 0,
    rate: mean + point.slowing * at,
    levelLevel: noise(first!),
    levelSwing: 0,
    levelRate: 0,
    swingSwing: (point.wander * begun) ** 2,
    swingRate: 0,
    rateRate: spread ** 2,
  }
  let logDensity = 0
  let day = first!.day
  for (const reading of later) {
    for (; day < reading.day; day++) {
      const pace = paces[day - first!.day]!
      steps?.push({ kind: 'day', pace, slowing: point.slowing, memory: MEMORY, before: { ...state } })
      nextDay(state, pace, point, prior)
    }
    const variance = noise(reading)
    const surprise = reading.value - state.level
    steps?.push({
      kind: 'reading',
      surprise,
      spread: state.levelLevel + variance,
      before: { ...state },
    })
    logDensity += update(state, reading.value, variance)
  }
  return { state, logDensity }
}
