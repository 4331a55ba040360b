import { normalQuantile } from '../statistics/normal.ts'
import { studentQuantile } from '../statistics/student.ts'
import { runningSum } from '../weather/running-sum.ts'

/** Two-sided 90 % of the normal distribution. */
const normal90 = normalQuantile(0.95)

interface HeatProjection {
  /** Days from today: 0 is today, 1 tomorrow. Ends of a 90 % interval; null where they can't be told. */
  earliest: number | null
  likely: number | null
  latest: number | null
  /** With the weather of the warmest and of the coolest past year. */
  best: number | null
  worst: number | null
  years: number
  /** Days of past years that were unknown and took the mean of the other years. */
  filled: number
  reason: string | null
}

/** Each year's days up to the shortest year or the first day that no year knows; gaps take the others' mean. */
function complete(years: readonly (readonly (number | null)[])[]): { rows: number[][]; filled: number } {
  const rows: number[][] = years.map(() => [])
  const length = Math.min(...years.map((year) => year.length))
  let filled = 0
  for (let day = 0; day < length; day++) {
    const known = years.map((year) => year[day]!).filter((mean) => mean !== null)
    if (known.length === 0) break
    const middle = known.reduce((sum, mean) => sum + Math.max(0, mean), 0) / known.length
    years.forEach((year, index) => {
      const mean = year[day]
      if (mean === null || mean === undefined) filled++
      rows[index]!.push(mean === null || mean === undefined ? middle : Math.max(0, mean))
    })
  }
  return { rows, filled }
}

/**
 * When a base-0 sum will reach its requirement, with the days to come taken from past years.
 *
 * `likely` runs on the mean of the years, calendar day by calendar day. The interval is that of a new year's sum on
 * each day, mean ± t x s x sqrt(1 + 1/n) over the n years: `earliest` is the first day on which its upper end
 * reaches the requirement, `latest` the first on which its lower end does, so a higher requirement never comes
 * earlier. `modelError`, a standard deviation in days, widens both in quadrature: the sums' own published error is
 * 7 to 10 days for a sugar target (Parker et al. 2020, OENO One 54).
 * Projection by own past years: our choice, no source.
 *
 * @param options sumToday and requirement in °C-days; futureYears holds the daily means in °C of each past year from
 *   tomorrow's calendar day on, null where unknown; modelError in days, default 0
 * @throws RangeError when a number is not finite
 */
export function projectHeatSum(options: {
  sumToday: number
  requirement: number
  futureYears: readonly (readonly (number | null)[])[]
  modelError?: number
}): HeatProjection {
  const { sumToday, requirement, futureYears, modelError = 0 } = options
  if (![sumToday, requirement, modelError].every(Number.isFinite)) {
    throw new RangeError('projectHeatSum requires finite numbers')
  }
  const n = futureYears.length
  const unknown = { earliest: null, likely: null, latest: null, best: null, worst: null, years: n, filled: 0 }
  if (sumToday >= requirement) {
    return { ...unknown, earliest: 0, likely: 0, latest: 0, best: 0, worst: 0, reason: null }
  }
  if (n === 0) return { ...unknown, reason: 'no earlier year to take the days to come from' }

  const { rows, filled } = complete(futureYears)
  const sums = rows.map((row) => runningSum([sumToday, ...row]))
  const days = sums[0]!.map((_, day) => day)
  const means = days.map((day) => sums.reduce((sum, year) => sum + year[day]!, 0) / n)
  const reach = (values: readonly number[]): number | null => {
    const index = values.findIndex((value) => value >= requirement - 1e-6)
    return index < 0 ? null : index
  }
  const reached = sums.map(reach)
  const known = reached.filter((day) => day !== null)
  const result = {
    ...unknown,
    likely: reach(means),
    best: known.length > 0 ? Math.min(...known) : null,
    worst: known.length === n ? Math.max(...known) : null,
    filled,
  }
  if (n < 2) return { ...result, reason: 'one earlier year shows no spread: two are needed' }

  const quantile = studentQuantile(0.95, n - 1)
  const margins = days.map((day) => {
    const squares = sums.reduce((sum, year) => sum + (year[day]! - means[day]!) ** 2, 0)
    return quantile * Math.sqrt((squares / (n - 1)) * (1 + 1 / n))
  })
  const first = reach(means.map((mean, day) => mean + margins[day]!))
  const last = reach(means.map((mean, day) => mean - margins[day]!))
  const widen = (margin: number): number => Math.hypot(margin, normal90 * modelError)
  const { likely } = result
  return {
    ...result,
    earliest:
      likely === null || first === null ? first : Math.max(0, Math.floor(likely - widen(likely - first))),
    latest: likely === null || last === null ? null : Math.ceil(likely + widen(last - likely)),
    reason:
      last === null ? `not certain within the ${days.length - 1} days that the earlier years cover` : null,
  }
}
