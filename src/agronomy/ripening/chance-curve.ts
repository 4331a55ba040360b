import { normalCdf } from '../statistics/normal.ts'
import { type Believed, believe, filter, nextDay, paceOn, type Reading } from './ripening-model.ts'
import type { RipeningPrior } from './ripening-prior.ts'
import { type Step, smoothedLevels } from './smoother.ts'
import type { Warmth } from './warmth.ts'

/**
 * Probability that ripening stalls before the target is reached, and for how many days at most. Own choice, no source.
 */
const STANDSTILL = { belief: 0.15, days: 7 }
/** A standstill to come is scaled down on days nearer than this. */
const STANDSTILL_WITHIN = 7
/** Chance on the day of the last reading from which earlier days are calculated too. */
const LOOKED_BACK = 0.05

/** Share of the posterior kept between readings, where the parameters hardly matter. Own choice, no source. */
const MOST_OF_BELIEF = 0.9

/** Mean of the block and its variance, day by day, at one point of the grid. */
interface Course {
  share: number
  means: number[]
  variances: number[]
}

/** Courses at every point of the grid, calculated only as far as needed. */
interface Courses {
  points: readonly Course[]
  /** Days from the first to the last. */
  length: number
  /** Carries all points on to a day, counted from the first. */
  carryTo: (at: number) => void
}

export type Season = ReturnType<typeof seasonOf>

/** The readings of a season and what they make of a prior: the posterior on the day of the last reading. */
export const seasonOf = (readings: readonly Reading[], prior: RipeningPrior, warmth: Warmth) => ({
  readings,
  prior,
  warmth,
  believed: believe(readings, prior, warmth),
})

/** The chance that the target has been reached, by day from `from` on. */
interface ChanceCurve {
  from: number
  length: number
  /** The chance on a day, counted from the first; calculated on demand. */
  on: (at: number) => number
}

/** The block's course from the last reading to a day, at each point of the grid. */
function coursesAhead({ readings, believed, prior, warmth }: Season, to: number): Courses {
  const from = readings.at(-1)!.day
  const ahead = believed.map((point) => {
    const state = { ...point.state }
    return { point, state, share: point.share, means: [state.level], variances: [state.levelLevel] }
  })
  let reached = 0
  const carryTo = (at: number) => {
    for (; reached < at; reached++) {
      const warmer = warmth(from + reached)
      for (const { point, state, means, variances } of ahead) {
        nextDay(state, paceOn(point.warmth, warmer), point, prior)
        means.push(state.level)
        variances.push(state.levelLevel)
      }
    }
  }
  return { points: ahead, length: Math.max(0, to - from) + 1, carryTo }
}

/**
 * The block's course from the first reading to the day before the last, by all readings, at the most probable points of
 * the grid.
 */
function coursesBehind({ readings, believed, prior, warmth }: Season): Courses {
  const from = readings[0]!.day
  const days = Array.from({ length: readings.at(-1)!.day - from }, (_, at) => warmth(from + at))
  const points = mostOf(believed).map((point) => {
    const steps: Step[] = []
    filter(readings, { point, paces: days.map((warmer) => paceOn(point.warmth, warmer)), prior, steps })
    const levels = smoothedLevels(steps).filter((_, at) => steps[at]!.kind === 'day')
    return {
      share: point.share,
      means: levels.map(({ mean }) => mean),
      variances: levels.map(({ variance }) => variance),
    }
  })
  return { points, length: days.length, carryTo: () => {} }
}

/** The most probable points of the grid, with shares scaled to add up to 1. */
function mostOf(believed: readonly Believed[]): Believed[] {
  let sum = 0
  const most = believed
    .toSorted((a, b) => b.share - a.share)
    .filter(({ share }) => {
      const isWanted = sum < MOST_OF_BELIEF
      if (isWanted) sum += share
      return isWanted
    })
  return most.map((point) => ({ ...point, share: point.share / sum }))
}

/** Chance of each day that the mean is at the target, at least as high as on the day before it. */
function reachedBy({ points, carryTo }: Courses, target: number, shift: number): (at: number) => number {
  const chances: number[] = []
  const onNext = (at: number) => {
    // Once reached, the target stays reached.
    if (chances[at - 1] === 1) return 1
    carryTo(at)
    let chance = 0
    for (const { share, means, variances } of points)
      chance += share * normalCdf((means[at]! - target) / Math.sqrt(variances[at]! + shift))
    return Math.max(chances[at - 1] ?? 0, Math.min(1, chance))
  }
  return (at) => {
    while (chances.length <= at) chances.push(onNext(chances.length))
    return chances[at]!
  }
}

/**
 * The chance, day by day, that the block's mean has come up to a target: from the last reading on, or from the first
 * where it may have been reached before. Once reached, the target stays reached, so the chance never falls with time;
 * and on no day does it rise with the target. A possible standstill ahead delays part of it.
 *
 * @param options target; until, the last day of the curve; shift, variance of an error that all readings share
 */
export function chanceCurve(
  season: Season,
  { target, until, shift }: { target: number; until: number; shift: number },
): ChanceCurve {
  const courses = coursesAhead(season, until)
  const { length } = courses
  const steady = reachedBy(courses, target, shift)
  const ahead = (at: number) => {
    const chance = steady(at)
    const scale = Math.min(1, at / STANDSTILL_WITHIN)
    let later = 0
    for (let stood = 1; stood <= STANDSTILL.days; stood++) later += between(steady, at - stood * scale)
    return chance + STANDSTILL.belief * (later / STANDSTILL.days - chance)
  }
  const last = season.readings.at(-1)!.day
  const first = season.readings[0]!.day
  if (ahead(0) < LOOKED_BACK || first === last) return { from: last, length, on: ahead }
  const past = coursesBehind(season)
  const behind = reachedBy(past, target, shift)
  const on = (at: number) =>
    at < past.length ? behind(at) : Math.max(behind(past.length - 1), ahead(at - past.length))
  return { from: first, length: past.length + length, on }
}

function between(value: (at: number) => number, at: number): number {
  const low = Math.floor(at)
  const share = at - low
  return value(low) + (share === 0 ? 0 : share * (value(low + 1) - value(low)))
}

/** The first day on which the chance reaches a share; null where it doesn't within the curve. */
export function dayOfShare({ from, length, on }: ChanceCurve, share: number): number | null {
  for (let at = 0; at < length; at++) if (on(at) >= share) return from + at
  return null
}
