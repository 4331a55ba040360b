import { fitLine } from '../statistics/regression.ts'
import { daysOfTarget } from './day-of-target.ts'
import { forecastRipening, type ReadingNoise } from './ripening-forecast.ts'
import { lastSamplingDays, type SugarSample } from './sampling-days.ts'
import { chooseBasis, type DayAtHeatSum } from './sugar-basis.ts'

export interface SugarTrendOptions {
  /** Share of the interval. */
  level?: number
  /** Days after the last sample that the samples can speak for. */
  horizon?: number
  /** Standard error of what was added to all samples alike, °Brix, as for what a press reads. */
  shiftError?: number
  /** When a heat sum is reached; without it heat sums are not used. */
  dayAtHeatSum?: DayAtHeatSum
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
  /** Probability that the target is reached within the horizon at all; the days are for the case that it is. */
  chance: number | null
  /** True when the chance that it comes later than the horizon, or never, is more than the share beyond `latest`. */
  openEnded: boolean
  /** The target is too unlikely within the horizon to name a day. */
  tooFar: boolean
}

/** Days after the last sample for which samples are asked. Our choice, no source. */
export const HORIZON = 35

/** Below this chance of reaching the target within the horizon, or of rising at all, no day is named. Our choice. */
const LEAST_CHANCE = 0.15
const LEAST_RISING = 0.8

/** Variance of the samples' means by the spread between their readings; nothing where no sample has three. */
function noiseOf(days: readonly SugarSample[]): ReadingNoise | undefined {
  const read = days.flatMap(({ readings }) => (readings && readings.n >= 3 ? [readings] : []))
  const df = read.reduce((sum, { n }) => sum + n - 1, 0)
  if (df === 0) return undefined
  return { variance: read.reduce((sum, { sd, n }) => sum + ((n - 1) * sd ** 2) / n, 0) / df, df }
}

/**
 * When the block's mean sugar reaches a target, from its last sampling days, with an interval.
 *
 * A regression that allows for slowing and for the noise of such samples, turned round to the day (inverse prediction of
 * the mean): see forecastRipening. The days are those for the case that the target is reached within the horizon, and
 * `chance` says how sure that is.
 * Against days, or heat sums where they foretell the samples better by leave-one-out (four sampling days at least); heat
 * is taken at the mean pace of the days used, and the heat to come widens the interval by the warmest and the coolest of
 * past seasons. Refuses with the reason: fewer than three sampling days, no rise or none
 * beyond noise (the counterpart of Fieller's g >= 1), or a target too unlikely within the horizon.
 *
 * @returns a function that answers for one target after another; the samples are fitted once
 * @throws RangeError when a sample, a target, the level or the horizon is not a sound number
 */
export function sugarTrend(
  samples: readonly SugarSample[],
  options: SugarTrendOptions = {},
): (target: number) => SugarTrend {
  const { level = 0.9, horizon = HORIZON, shiftError = 0, dayAtHeatSum } = options
  if (!samples.every((s) => Number.isFinite(s.day) && Number.isFinite(s.brix)))
    throw new RangeError('sugarTrend requires finite days and °Brix')
  if (!(level > 0 && level < 1 && horizon > 0 && shiftError >= 0 && shiftError < 45))
    throw new RangeError('sugarTrend requires a level, a horizon and an error of the shift')
  const days = lastSamplingDays(samples)
  const none: SugarTrend = {
    ...{ earliest: null, likely: null, latest: null, reason: null, basis: 'day', used: days.length },
    ...{ errors: { day: null, heatSum: null }, perDay: null, chance: null, openEnded: false, tooFar: false },
  }
  const tail = (1 - level) / 2
  const fitted =
    days.length < 3
      ? null
      : prepare(days, { dayAtHeatSum, shiftError, shares: [tail, 0.5, 1 - tail], end: horizon })
  return (target) => {
    if (!Number.isFinite(target)) throw new RangeError('sugarTrend requires a finite target')
    if (!fitted) return { ...none, reason: 'not enough to tell: samples from three days are needed' }
    const { basis, forecast, refusal } = fitted
    const found = { ...none, basis: basis.basis, errors: basis.errors, perDay: forecast.rate }
    if (refusal) return { ...found, reason: refusal }
    const { days: reached, within } = fitted.daysOf(target)
    if (within < LEAST_CHANCE) {
      const reason = `not enough to tell: the target is likely more than ${horizon} days off`
      return { ...found, chance: within, reason, tooFar: true }
    }
    const earliest = basis.toDay(reached[0]!, 'warmest')
    const likely = basis.toDay(reached[1]!, 'mean')
    const latest = basis.toDay(reached[2]!, 'coolest')
    const unforeseen = earliest === null || likely === null || latest === null
    const reason = unforeseen ? 'the heat to come is not foreseen that far' : null
    return { ...found, earliest, likely, latest, chance: within, reason, openEnded: within < 1 - tail }
  }
}

/** How far below the last sample targets are held in order from, °Brix. */
const BELOW_LAST = 2

function prepare(
  days: readonly SugarSample[],
  of: {
    dayAtHeatSum: DayAtHeatSum | undefined
    shiftError: number
    shares: readonly number[]
    end: number
  },
) {
  const basis = chooseBasis(days, of.dayAtHeatSum)
  const forecast = forecastRipening(basis.points, { readings: noiseOf(days), shiftError: of.shiftError })
  const refusal =
    fitLine(basis.points).slope <= 0
      ? 'not enough to tell: sugar has not risen over the last samples'
      : forecast.rising < LEAST_RISING
        ? 'not enough to tell: the rise is within the noise of sampling'
        : null
  const daysOf = daysOfTarget(forecast, {
    ...{ shares: of.shares, start: basis.points[0]!.x, end: of.end },
    from: Math.floor(basis.points.at(-1)!.y - BELOW_LAST),
  })
  return { basis, forecast, refusal, daysOf }
}
