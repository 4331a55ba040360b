import { runningSum } from '../weather/running-sum.ts'
import type { DayTemperatures } from './degree-days.ts'

/** Groups from `from` up to but not including `to`, °C; bounds from memory (Jones 2006). */
const growingSeasonGroups = [
  { group: 'cool', from: 13, to: 15 },
  { group: 'intermediate', from: 15, to: 17 },
  { group: 'warm', from: 17, to: 19 },
  { group: 'hot', from: 19, to: 24 },
] as const

/** Another grouping is taught with other bounds, so a group is named together with its scheme. */
export const growingSeasonScheme = 'climate maturity groups, Jones 2006, bounds from memory'

/**
 * Growing season temperature: mean of (min + max) / 2 over the season of the Winkler index.
 * Source: Hall & Jones 2009, Aust. J. Grape Wine Res. 15:97-119, second-hand, read in the documentation of a public R package.
 *
 * @param days °C, from the first to the last day of the season; null where unknown
 * @returns the mean in °C; null where no day is known
 * @throws RangeError when a temperature is not finite
 */
export function growingSeasonTemperature(days: readonly (DayTemperatures | null)[]): number | null {
  const known = days.filter((day) => day !== null)
  const means = runningSum(known.map(({ min, max }) => (min + max) / 2))
  return known.length === 0 ? null : means.at(-1)! / known.length
}

/** Group of a season's mean in °C; null outside the scheme. Throws RangeError when it is not finite. */
export function growingSeasonGroup(mean: number) {
  if (!Number.isFinite(mean)) throw new RangeError('growingSeasonGroup requires a finite mean')
  return growingSeasonGroups.find(({ from, to }) => mean >= from && mean < to)?.group ?? null
}
