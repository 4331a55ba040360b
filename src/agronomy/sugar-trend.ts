import { fitLine, type Point } from './regression.ts'
import { forecastRipening, type RipeningForecast } from './ripening-forecast.ts'
import { lastSamplingDays, type SugarSample } from './sampling-days.ts'
import { chooseBasis } from './sugar-basis.ts'

export interface SugarTrendOptions {
  /** °Brix that the block's mean is to reach. */
  target: number
  /** Share of the interval. */
  level?: number
  /** Days after the last sample that the samples can speak for. */
  horizon?: number
  /** Day number on which a heat sum is reached, or null when not foreseen. Without it heat sums are not used. */
  dayAtHeatSum?: (heatSum: number) => number | null
}

export interface SugarTrend {
  /** Day numbers, with fractions, on which the mean reaches the target; all null where there is not enough to tell. */
  earliest: number | null
  likely: number | null
  latest: number | null
  reason: string | null
  /** What sugar was set against, and the leave-one-out error in °Brix by each where it can be told. */
  basis: 'day' | 'heat-sum'
  errors: { day: number | null; heatSum: number | null }
  /** Sampling days used. */
  used: number
  /** °Brix a day at the last sample, slowing allowed for. */
  perDay: number | null
  /** Probability that the target is reached within the horizon. */
  chance: number | null
  /** True when `latest` is no more than the end of the horizon: it may come later still, or never. */
  openEnded: boolean
}

/** Days from one look to the next when searching for a crossing. */
const STEP = 3

/** The first x from `start` on by which the chance comes up to `wanted`; `end` where it does not. */
function firstReached(chance: (x: number) => number, wanted: number, [start, end]: [number, number]): number {
  if (chance(start) >= wanted) return start
  let low = start
  while (low < end && chance(Math.min(end, low + STEP)) < wanted) low += STEP
  if (low >= end) return end
  let high = Math.min(end, low + STEP)
  for (let step = 0; step < 30; step++) {
    const middle = (low + high) / 2
    if (chance(middle) < wanted) low = middle
    else high = middle
  }
  return high
}

function whyNot(forecast: RipeningForecast, points: readonly Point[], tail: number): string | null {
  if (fitLine(points).slope <= 0) return 'not enough to tell: sugar has not risen over the last samples'
  if (forecast.rising < 1 - tail) return 'not enough to tell: the rise is within the noise of sampling'
  return null
}

/**
 * When the block's mean sugar reaches the target, from its last three to five sampling days, with an interval.
 *
 * A regression that allows for slowing and for the noise known of such samples, turned round to the day (inverse
 * prediction of the mean): see forecastRipening. The ends of the interval are those of the day's distribution, with
 * `latest` at the end of the horizon where more than its share lies beyond. Fractions of days: rounding
 * to the nearest day keeps the level; rounding outward would lift it past 95 % on quiet samples. Against days, or heat sums
 * where they foretell the samples better by leave-one-out (four sampling days at least); heat is taken at the mean
 * pace of the days used. Refuses with the reason: fewer than three sampling days, no rise or none beyond noise
 * (the counterpart of Fieller's g >= 1), or a target more likely than not beyond the horizon.
 * Throws a RangeError when a sample, the target, the level or the horizon is not a sound number.
 */
export function sugarTrend(samples: readonly SugarSample[], options: SugarTrendOptions): SugarTrend {
  const { target, level = 0.9, horizon = 45, dayAtHeatSum } = options
  if (!samples.every((s) => Number.isFinite(s.day) && Number.isFinite(s.brix)) || !Number.isFinite(target)) {
    throw new RangeError('sugarTrend requires finite days, °Brix and target')
  }
  if (!(level > 0 && level < 1 && horizon > 0))
    throw new RangeError('sugarTrend requires a level and a horizon')
  const days = lastSamplingDays(samples)
  const none: SugarTrend = {
    ...{ earliest: null, likely: null, latest: null, reason: null, basis: 'day', used: days.length },
    ...{ errors: { day: null, heatSum: null }, perDay: null, chance: null, openEnded: false },
  }
  if (days.length < 3) return { ...none, reason: 'not enough to tell: samples from three days are needed' }
  const { basis, errors, points, toDay } = chooseBasis(days, dayAtHeatSum)
  const forecast = forecastRipening(points)
  const found = { ...none, basis, errors, perDay: forecast.rate }
  const tail = (1 - level) / 2
  const refusal = whyNot(forecast, points, tail)
  if (refusal) return { ...found, reason: refusal }
  const chance = forecast.reachedBy(horizon, target)
  if (chance < 0.5) {
    const reason = `not enough to tell: the target is likely more than ${horizon} days off`
    return { ...found, chance, reason }
  }
  const dayOf = (share: number): number | null =>
    toDay(firstReached((at) => forecast.reachedBy(at, target), share, [points[0]!.x, horizon]))
  const dates = { earliest: dayOf(tail), likely: dayOf(0.5), latest: dayOf(1 - tail) }
  const unforeseen = Object.values(dates).includes(null)
  const reason = unforeseen ? 'the heat to come is not foreseen that far' : null
  return { ...found, ...dates, chance, reason, openEnded: chance < 1 - tail }
}
