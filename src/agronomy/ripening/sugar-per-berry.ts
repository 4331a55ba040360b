/** A berry sample: day number, mean berry weight in g, Brix. */
interface BerrySample {
  day: number
  weight: number
  brix: number
}

/**
 * Loading below this, in mg of sugar per berry and day, counts as the plateau. Basis: the 3 mg rule, common
 * practice after Deloire's sugar-loading method (plateau read, the figure second-hand).
 */
const PLATEAU_RATE = 3

export interface SugarLoading {
  /** mg per berry at each sample. */
  from: number
  to: number
  /** mg per berry and day. */
  rate: number
  /** Change of Brix between the samples. */
  brixChange: number
  /**
   * loading: more sugar comes in at 3 mg a day or above. plateau: loading has stopped, and Brix moves by water
   * only. dilution: Brix fell though the berry holds its sugar (rain, irrigation). loss: the berry holds less.
   */
  state: 'loading' | 'plateau' | 'dilution' | 'loss'
}

/**
 * mg of sugar in a berry, on a whole-Brix basis: weight (g) x Brix / 100 x 1000.
 * Throws a RangeError unless the weight is above 0 and Brix 0 or more.
 * Source: Deloire (sugar loading), Wines & Vines.
 */
export function sugarPerBerry(weight: number, brix: number): number {
  if (!(weight > 0)) throw new RangeError('sugar per berry requires a weight above 0')
  if (!(brix >= 0)) throw new RangeError('sugar per berry requires 0 Brix or more')
  return weight * brix * 10
}

/**
 * Share by which Brix or sugar per berry may fall from sampling alone before it is called a dilution or a loss. Our own
 * choice, no source.
 */
const NOISE = 0.03

/**
 * What happened to the sugar of the berries between two samples.
 * Throws a RangeError when the second sample is not later.
 */
export function sugarLoading(first: BerrySample, second: BerrySample): SugarLoading {
  const days = second.day - first.day
  if (!(days > 0)) throw new RangeError('sugar loading requires a second sample on a later day')
  const from = sugarPerBerry(first.weight, first.brix)
  const to = sugarPerBerry(second.weight, second.brix)
  const rate = (to - from) / days
  const brixChange = second.brix - first.brix
  const held = rate >= PLATEAU_RATE ? 'loading' : 'plateau'
  const diluted = brixChange < -NOISE * first.brix
  return { from, to, rate, brixChange, state: to < from * (1 - NOISE) ? 'loss' : diluted ? 'dilution' : held }
}
