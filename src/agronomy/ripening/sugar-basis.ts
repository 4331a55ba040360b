import { leaveOneOutError, type Point } from '../statistics/regression.ts'
import type { SugarSample } from './sampling-days.ts'

/** Which pace of the heat to come is asked for: that of past seasons in the mean, or of the warmest or coolest of them. */
export type HeatPace = 'warmest' | 'mean' | 'coolest'

/** Day number on which a heat sum is reached, or null when not foreseen. */
export type DayAtHeatSum = (heatSum: number, pace: HeatPace) => number | null

export interface SugarBasis {
  basis: 'day' | 'heat-sum'
  /** Leave-one-out error in °Brix by each, null where it can't be told. */
  errors: { day: number | null; heatSum: number | null }
  /** x in days, or in heat at the mean pace of a day, 0 at the last sample; y in °Brix. */
  points: Point[]
  /** From such an x back to a day number; null where the heat is not foreseen. Against days the pace changes nothing. */
  toDay: (x: number, pace: HeatPace) => number | null
}

/** Points by heat sum, or null where one is missing or the sum does not rise from sample to sample. */
function pointsByHeat(samples: readonly SugarSample[]): Point[] | null {
  const points = samples.map((s) => ({ x: s.heatSum ?? Number.NaN, y: s.brix }))
  const rising = points.every((p, i) => Number.isFinite(p.x) && (i === 0 || p.x > points[i - 1]!.x))
  return rising ? points : null
}

/**
 * Whether sugar is set against days or against heat sums: whichever foretells the samples better by leave-one-out.
 * Heat needs a sum with every sample, four sampling days and a way back to days.
 * Samples: at least three, in order, of different days. Throws as fitLine does.
 */
export function chooseBasis(samples: readonly SugarSample[], dayAtHeatSum?: DayAtHeatSum): SugarBasis {
  const cold = samples.map((s) => ({ x: s.day, y: s.brix }))
  const warm = dayAtHeatSum && samples.length > 3 ? pointsByHeat(samples) : null
  const errors = { day: leaveOneOutError(cold), heatSum: warm && leaveOneOutError(warm) }
  const lastDay = cold.at(-1)!.x
  const better = errors.day !== null && errors.heatSum !== null && errors.heatSum < errors.day
  if (!better || !warm || !dayAtHeatSum) {
    const points = cold.map((p) => ({ x: p.x - lastDay, y: p.y }))
    return { basis: 'day', errors, points, toDay: (x) => lastDay + x }
  }
  const last = warm.at(-1)!.x
  const pace = (last - warm[0]!.x) / (lastDay - cold[0]!.x)
  const points = warm.map((p) => ({ x: (p.x - last) / pace, y: p.y }))
  return { basis: 'heat-sum', errors, points, toDay: (x, heat) => dayAtHeatSum(last + x * pace, heat) }
}
