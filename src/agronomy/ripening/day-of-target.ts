import type { RipeningForecast } from './ripening-forecast.ts'

/** Days from one look to the next when searching for a crossing. */
const STEP = 4

/** The first x from `start` on by which the chance comes up to `wanted`, straight within a day. */
function firstReached(
  chance: (x: number) => number,
  wanted: number,
  { start, end }: { start: number; end: number },
): number {
  if (chance(start) >= wanted) return start
  let low = start
  while (low + STEP < end && chance(low + STEP) < wanted) low += STEP
  let high = Math.min(end, low + STEP)
  while (high - low > 1) {
    const middle = (low + high) / 2
    if (chance(middle) < wanted) low = middle
    else high = middle
  }
  const [below, above] = [chance(low), chance(high)]
  if (above < wanted) return high
  return low + ((high - low) * (wanted - below)) / (above - below)
}

/** Steps of the target, °Brix, between which days run straight. */
const TARGET_STEP = 0.5

export interface DaysOfTarget {
  /** Days after the last sample by which the target is reached with each of the chances asked for. */
  days: number[]
  /** Chance that the target is reached by the end of the search at all. */
  within: number
}

/**
 * The days by which targets are reached with the chances asked for, given that they are reached by `end` at all.
 *
 * Slow lines drop out of that condition as the target rises, which alone could bring a higher target an earlier day; so
 * days are held at their latest over lower targets, from `from` on in steps of half a degree, straight between them.
 *
 * @param forecast chance of having reached a target by a day
 * @param options shares asked for, 0 to 1; start and end of the search, days after the last sample; from, °Brix, the
 *   lowest target held on to, which the samples have passed
 * @returns a function of the target in °Brix; no days where the forecast gives it no chance at all
 */
export function daysOfTarget(
  forecast: RipeningForecast,
  options: { shares: readonly number[]; start: number; end: number; from: number },
): (target: number) => DaysOfTarget {
  const { shares, start, end, from } = options
  const plain = (target: number): DaysOfTarget => {
    const within = forecast.reachedBy(end, target)
    const known = new Map<number, number>()
    const chance = (x: number): number => {
      const found = known.get(x) ?? forecast.reachedBy(x, target) / within
      known.set(x, found)
      return found
    }
    return {
      days: within > 0 ? shares.map((share) => firstReached(chance, share, { start, end })) : [],
      within,
    }
  }
  const held: number[][] = []
  const heldAt = (step: number): number[] => {
    while (held.length <= step) {
      const { days } = plain(from + TARGET_STEP * held.length)
      const before = held.at(-1)
      held.push(shares.map((_, i) => Math.max(days[i] ?? end, before?.[i] ?? start)))
    }
    return held[step]!
  }
  return (target) => {
    if (target < from) return plain(target)
    const within = forecast.reachedBy(end, target)
    if (within === 0) return { days: [], within }
    const at = (target - from) / TARGET_STEP
    const [below, above] = [heldAt(Math.floor(at)), heldAt(Math.ceil(at))]
    const share = at - Math.floor(at)
    return { days: below.map((day, i) => day + share * (above[i]! - day)), within }
  }
}
