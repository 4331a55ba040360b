import { type DayTemperatures, degreeDays, sumDegreeDays } from './degree-days.ts'
import type { Hemisphere, SeasonWindow } from './season-window.ts'

/** Season of the index. Source: Amerine & Winkler 1944, second-hand, read in an encyclopedia and the documentation of a public R package. */
export const winklerSeason: Record<Hemisphere, SeasonWindow> = {
  north: { from: { month: 4, day: 1 }, to: { month: 10, day: 31 } },
  south: { from: { month: 10, day: 1 }, to: { month: 4, day: 30 } },
}

/**
 * Regions from their lower bound, °C-days, up to but not including the next.
 * Source: Oxford Companion to Wine, "California heat summation", second-hand, read on ckbk.com, which gives 2006 (third
 * edition, Oxford University Press); the entry names Jones et al. 2010 and Anderson et al. 2012 for its lowest class, so
 * that part is later. Amerine & Winkler 1944 had one region I, up to 2500 °F-days; who parted it, and when, was not
 * found. 850 and 2700 are rounded there (1500 and 4900 °F-days are 833.3 and 2722.2), so that a table in °F can disagree
 * between 833 and 850, and 2700 and 2722.
 */
const winklerRegions = [
  { region: 'too cool', from: Number.NEGATIVE_INFINITY },
  { region: 'Ia', from: 850 },
  { region: 'Ib', from: 1111 },
  { region: 'II', from: 1389 },
  { region: 'III', from: 1667 },
  { region: 'IV', from: 1944 },
  { region: 'V', from: 2222 },
  { region: 'too hot', from: 2700 },
] as const

/** Region of a season's sum in °C-days. Throws RangeError when it is not finite. */
export function winklerRegion(sum: number) {
  if (!Number.isFinite(sum)) throw new RangeError('winklerRegion requires a finite sum')
  return winklerRegions.findLast(({ from }) => sum >= from)!.region
}

/**
 * Winkler index from daily extremes: sum of the average method over base 10 °C, no upper cut-off.
 * Source: Amerine & Winkler 1944, Hilgardia 15:493-675.
 *
 * @param days °C, from the first to the last day of `winklerSeason`; null where unknown
 * @returns °C-days; null where no day is known
 * @throws RangeError as `degreeDays`
 */
export function winklerIndex(days: readonly (DayTemperatures | null)[]): number | null {
  return sumDegreeDays(days.map((day) => day && degreeDays({ ...day, base: 10, method: 'average' }))).sum
}
