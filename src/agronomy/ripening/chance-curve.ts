import { normalCdf } from '../statistics/normal.ts'
import { type Believed, filter, nextDay, paceOn, type Reading } from './ripening-model.ts'
import type { RipeningPrior } from './ripening-prior.ts'
import { type Step, smoothedLevels } from './smoother.ts'
import type { Warmth } from './warmth.ts'

/** Belief that ripening stands still before the target is reached, and for how many days at most. Own choice, no source. */
const STANDSTILL = { belief: 0.15, days: 7 }
/** A standstill to come is scaled down on days nearer than this. */
const STANDSTILL_WITHIN = 7
/** From so much chance on the day of the last reading the days before it are looked at too. */
const LOOKED_BACK = 0.05

/** Mean of the block and its variance, day by day, at one point of the grid. */
interface Course {
  share: number
  means: number[]
  variances: number[]
}

/** A season as it is believed, from the day of its last reading. */
export interface Season {
  readings: readonly Reading[]
  believed: readonly Believed[]
  prior: RipeningPrior
  warmth: Warmth
}

/** The chance that the target has been reached, by day from `from` on. */
export interface ChanceCurve {
  from: number
  chances: number[]
}

/** The block's course from the last reading to a day, at each point of the grid. */
export function coursesAhead({ readings, believed, prior, warmth }: Season, to: number): Course[] {
  const from = readings.at(-1)!.day
  const days = Array.from({ length: Math.max(0, to - from) }, (_, at) => warmth(from + at))
  return believed.map((point) => {
    const state = { ...point.state }
    const [means, variances] = [[state.level], [state.levelLevel]]
    for (const warmer of days) {
      nextDay(state, paceOn(point.warmth, warmer), point, prior)
      means.push(state.level)
      variances.push(state.levelLevel)
    }
    return { share: point.share, means, variances }
  })
}

/** The block's course from the first reading to the day before the last, by all readings. */
function coursesBehind({ readings, believed, prior, warmth }: Season): Course[] {
  const from = readings[0]!.day
  const days = Array.from({ length: readings.at(-1)!.day - from }, (_, at) => warmth(from + at))
  return believed.map((point) => {
    const steps: Step[] = []
    filter(readings, { point, paces: days.map((warmer) => paceOn(point.warmth, warmer)), prior, steps })
    const levels = smoothedLevels(steps).filter((_, at) => steps[at]!.kind === 'day')
    return {
      share: point.share,
      means: levels.map(({ mean }) => mean),
      variances: levels.map(({ variance }) => variance),
    }
  })
}

/** Chance of each day that the mean is at the target, at least as high as on the day before it. */
function reachedBy(courses: readonly Course[], target: number, shift: number): number[] {
  const chances: number[] = []
  for (let at = 0; at < courses[0]!.means.length; at++) {
    // Reached once is reached, and surely so from here on.
    if (chances[at - 1] === 1) {
      chances.push(1)
      continue
    }
    let chance = 0
    for (const { share, means, variances } of courses)
      chance += share * normalCdf((means[at]! - target) / Math.sqrt(variances[at]! + shift))
    chances.push(Math.max(chances[at - 1] ?? 0, Math.min(1, chance)))
  }
  return chances
}

/**
 * The chance, day by day, that the block's mean has come up to a target: from the last reading on, or from the first where
 * it may have been reached before. Reached once is reached, so that the chance never falls with time; and on no day does it rise with
 * the target. A standstill that is still to come puts off part of it.
 *
 * @param courses from coursesAhead, which serve one target after another
 * @param shift variance of an error that all readings share
 */
export function chanceCurve(
  season: Season,
  courses: readonly Course[],
  { target, shift }: { target: number; shift: number },
): ChanceCurve {
  const steady = reachedBy(courses, target, shift)
  const ahead = steady.map((chance, at) => {
    const scale = Math.min(1, at / STANDSTILL_WITHIN)
    let later = 0
    for (let stood = 1; stood <= STANDSTILL.days; stood++) later += between(steady, at - stood * scale)
    return chance + STANDSTILL.belief * (later / STANDSTILL.days - chance)
  })
  const last = season.readings.at(-1)!.day
  const first = season.readings[0]!.day
  if (ahead[0]! < LOOKED_BACK || first === last) return { from: last, chances: ahead }
  const behind = reachedBy(coursesBehind(season), target, shift)
  const before = behind.at(-1)!
  return { from: first, chances: [...behind, ...ahead.map((chance) => Math.max(before, chance))] }
}

function between(values: readonly number[], at: number): number {
  const low = Math.floor(at)
  const share = at - low
  return values[low]! + (share === 0 ? 0 : share * (values[low + 1]! - values[low]!))
}

/** The first day by which the chance has come to a share; null where it does not within the curve. */
export function dayOfShare({ from, chances }: ChanceCurve, share: number): number | null {
  const at = chances.findIndex((chance) => chance >= share)
  return at < 0 ? null : from + at
}
