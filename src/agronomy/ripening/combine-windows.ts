import { normalQuantile } from '../statistics/normal.ts'

/** One method's answer, day numbers; earliest and latest end a 90 % interval. */
export interface WindowEstimate {
  method: string
  earliest: number | null
  likely: number | null
  latest: number | null
}

export interface CombinedWindow {
  earliest: number | null
  likely: number | null
  latest: number | null
  /** Share of each method in the likely day, adding up to 1; 0 for one that has no interval. */
  weights: { method: string; weight: number }[]
  /** Sum of squared distances from the likely day in each method's own standard errors. */
  chiSquare: number | null
  /** sqrt(chiSquare / (n - 1)); above 1 the methods differ more than their intervals allow, and widen the result. */
  birgeRatio: number | null
  /** The difference would come by chance less than once in twenty. */
  disagree: boolean
  reason: string | null
}

const normal90 = normalQuantile(0.95)

/** 95 % points of chi-square for 1, 2 and 3 degrees of freedom. Source: any table, e.g. NIST e-Handbook 1.3.6.7.4. */
const chiSquare95 = [3.841, 5.991, 7.815]

/** A date is a whole day: no side of an interval is taken as narrower than half of one. */
const deviation = (days: number): number => Math.max(days, 0.5) / normal90

/**
 * Combination of independent windows by inverse variance.
 *
 * Each method weighs 1 / s², s from the whole width of its interval. The ends keep their own width on either side,
 * so a skewed interval leaves a skewed result. Where the methods differ by more than they claim, both sides are
 * widened by the ratio of Birge 1932, Phys. Rev. 40:207-227 (from memory), which never narrows them here.
 * The methods share the season's weather, so that they are less independent than assumed.
 *
 * @param estimates up to four methods; one without an interval has no weight; one alone passes through unchanged
 * @returns day numbers, earliest rounded down, likely to the nearest and latest up
 * @throws RangeError when an estimate is out of order or not finite, or there are more than four
 */
export function combineWindows(estimates: readonly WindowEstimate[]): CombinedWindow {
  if (estimates.length > 4) throw new RangeError('combineWindows requires at most four estimates')
  const told = estimates.filter(({ likely }) => likely !== null)
  const usable = told.flatMap(({ method, earliest, likely, latest }) => {
    if (earliest === null || likely === null || latest === null) return []
    if (!(earliest <= likely && likely <= latest && Number.isFinite(latest - earliest))) {
      throw new RangeError('combineWindows requires earliest, likely and latest in order')
    }
    const low = deviation(likely - earliest)
    const high = deviation(latest - likely)
    return [{ method, earliest, likely, latest, low, high, inverse: ((low + high) / 2) ** -2 }]
  })
  const alone = { chiSquare: null, birgeRatio: null, disagree: false }
  const only = usable.length > 0 ? usable : told.slice(0, told.length === 1 ? 1 : 0)
  const total = usable.reduce((sum, { inverse }) => sum + inverse, 0)
  const weights = estimates.map(({ method }) => {
    const found = usable.find((estimate) => estimate.method === method)
    return {
      method,
      weight: found ? found.inverse / total : only.length === 1 && only[0]!.method === method ? 1 : 0,
    }
  })
  if (only.length === 0) {
    const reason = told.length > 0 ? 'no method gives an interval to weigh it by' : 'no method can tell'
    return { earliest: null, likely: null, latest: null, weights, ...alone, reason }
  }
  if (only.length === 1) {
    const { earliest, likely, latest } = only[0]!
    const reason = usable.length > 0 ? null : 'the only method that can tell gives no interval'
    return { earliest, likely, latest, weights, ...alone, reason }
  }

  const likely = usable.reduce((sum, each) => sum + each.likely * each.inverse, 0) / total
  const chiSquare = usable.reduce((sum, each) => sum + (each.likely - likely) ** 2 * each.inverse, 0)
  const birgeRatio = Math.sqrt(chiSquare / (usable.length - 1))
  const margin = (side: 'low' | 'high'): number =>
    (normal90 * Math.max(1, birgeRatio)) / Math.sqrt(usable.reduce((sum, each) => sum + each[side] ** -2, 0))
  return {
    earliest: Math.floor(likely - margin('low')),
    likely: Math.round(likely),
    latest: Math.ceil(likely + margin('high')),
    weights,
    chiSquare,
    birgeRatio,
    disagree: chiSquare > chiSquare95[usable.length - 2]!,
    reason: null,
  }
}
