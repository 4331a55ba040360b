import { runningSum } from '../weather/running-sum.ts'
import type { Hemisphere } from './season-window.ts'

/** Month of the index. Source: documentation of xclim (Ouranosinc), cool_night_index. */
export const coolNightMonth: Record<Hemisphere, number> = { north: 9, south: 3 }

/** Classes up to and including `to`, °C; bounds from memory (Tonietto & Carbonneau 2004). */
const coolNightClasses = [
  { code: 'CI+2', class: 'very cool nights', to: 12 },
  { code: 'CI+1', class: 'cool nights', to: 14 },
  { code: 'CI-1', class: 'temperate nights', to: 18 },
  { code: 'CI-2', class: 'warm nights', to: Number.POSITIVE_INFINITY },
] as const

/**
 * Cool night index: mean of the daily minima of the month before harvest, September or March.
 * Source: Tonietto & Carbonneau 2004, Agric. For. Meteorol. 124:81-97.
 *
 * @param minima °C of each day of `coolNightMonth`, null where unknown
 * @returns the mean in °C; null where no day is known
 * @throws RangeError when a minimum is not finite
 */
export function coolNightIndex(minima: readonly (number | null)[]): number | null {
  const known = minima.filter((value) => value !== null)
  return known.length === 0 ? null : runningSum(known).at(-1)! / known.length
}

/** Class of a cool night index in °C. Throws RangeError when it is not finite. */
export function coolNightClass(index: number) {
  if (!Number.isFinite(index)) throw new RangeError('coolNightClass requires a finite index')
  return coolNightClasses.find(({ to }) => index <= to)!
}
