import { type DayTemperatures, sumDegreeDays } from './degree-days.ts'
import type { Hemisphere, SeasonWindow } from './season-window.ts'

/** Season of the index. Source: documentation of xclim (Ouranosinc), huglin_index. */
export const huglinSeason: Record<Hemisphere, SeasonWindow> = {
  north: { from: { month: 4, day: 1 }, to: { month: 9, day: 30 } },
  south: { from: { month: 10, day: 1 }, to: { month: 3, day: 31 } },
}

/** Classes up to and including `to`. Source: Tonietto & Carbonneau 2004, Agric. For. Meteorol. 124:81-97. */
const huglinClasses = [
  { code: 'HI-3', class: 'very cool', to: 1500 },
  { code: 'HI-2', class: 'cool', to: 1800 },
  { code: 'HI-1', class: 'temperate', to: 2100 },
  { code: 'HI+1', class: 'temperate warm', to: 2400 },
  { code: 'HI+2', class: 'warm', to: 3000 },
  { code: 'HI+3', class: 'very warm', to: Number.POSITIVE_INFINITY },
] as const

/** Class of an index. Throws RangeError when it is not finite. */
export function huglinClass(index: number) {
  if (!Number.isFinite(index)) throw new RangeError('huglinClass requires a finite index')
  return huglinClasses.find(({ to }) => index <= to)!
}

/** Day-length coefficient up to and including each latitude. Source: xclim, method "icclim". */
const coefficients = [
  { to: 40, value: 1 },
  { to: 42, value: 1.02 },
  { to: 44, value: 1.03 },
  { to: 46, value: 1.04 },
  { to: 48, value: 1.05 },
  { to: 50, value: 1.06 },
]

/** The largest published coefficient, used beyond 50° only as an extension that is labelled as such. */
const huglinCoefficientBeyond50 = 1.06

/**
 * Day-length coefficient by latitude in degrees; null beyond 50°, where none is published.
 * Throws RangeError when the latitude is not within -90 to 90.
 */
function huglinCoefficient(latitude: number): number | null {
  const distance = Math.abs(latitude)
  if (!(distance <= 90)) throw new RangeError('huglinCoefficient requires a latitude from -90 to 90')
  return coefficients.find(({ to }) => distance <= to)?.value ?? null
}

/** Share of one day in the index before the coefficient: the mean of mean and maximum, less 10 °C, not negative. */
function huglinDay({ min, max }: DayTemperatures): number {
  if (!(min <= max)) throw new RangeError('huglinDay requires a minimum no higher than the maximum')
  return Math.max(0, ((min + max) / 2 + max) / 2 - 10)
}

/**
 * Huglin heliothermal index: K x sum of max(0, ((mean - 10) + (max - 10)) / 2).
 * The clamp at zero is that of xclim and a public R package; the paper of 1978 states none (from memory).
 * Source: Huglin 1978, C. R. Acad. Agric. Fr. 64:1117-1126; Tonietto & Carbonneau 2004.
 *
 * @param options days in °C over `huglinSeason`, null where unknown; latitude in degrees
 * @returns the published index (null beyond 50° or where no day is known), the same with the coefficient of 50° (beyond
 *   50° only: an extension, not the published index), and why there is no value
 * @throws RangeError for a latitude or day that cannot be
 */
export function huglinIndex(options: { days: readonly (DayTemperatures | null)[]; latitude: number }) {
  const { sum } = sumDegreeDays(options.days.map((day) => day && huglinDay(day)))
  const coefficient = huglinCoefficient(options.latitude)
  const isBeyond = coefficient === null
  const beyond = 'the day-length coefficient is not defined beyond 50° of latitude'
  return {
    value: sum === null || isBeyond ? null : sum * coefficient,
    extension: sum === null || !isBeyond ? null : sum * huglinCoefficientBeyond50,
    coefficient,
    reason: sum === null ? 'no day of the season has temperatures' : isBeyond ? beyond : null,
  }
}
