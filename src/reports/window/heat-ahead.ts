import { type DayMeans, daysFrom, type Temperatures } from './temperatures.ts'

/** More unknown days than this leave a heat sum untold: one day in twenty. Our choice, no source. */
const MOST_UNKNOWN = 0.05

export interface HeatSum {
  /** °C-days */
  sum: number
  days: number
  /** Days without a reading, which took the mean of the known days around them. */
  filled: number
}

/** Base-0 sum of the days from one to another; null where too many are unknown. */
export function heatSumOf(means: DayMeans, from: number, to: number): HeatSum | null {
  const days = daysFrom(means, from, to)
  const known = days.filter((mean) => mean !== null).map((mean) => Math.max(0, mean))
  const filled = days.length - known.length
  if (known.length === 0 || filled > days.length * MOST_UNKNOWN) return null
  const total = known.reduce((sum, mean) => sum + mean, 0)
  const around =
    filled === 0 ? 0 : days.reduce<number>((sum, mean, at) => sum + (mean === null ? near(days, at) : 0), 0)
  return { sum: total + around, days: days.length, filled }
}

/** Mean of the nearest known days before and after a gap. */
function near(days: readonly (number | null)[], at: number): number {
  const before = days.slice(0, at).findLast((mean) => mean !== null) ?? null
  const after = days.slice(at + 1).find((mean) => mean !== null) ?? null
  const both = [before, after].filter((mean) => mean !== null).map((mean) => Math.max(0, mean))
  return both.reduce((sum, mean) => sum + mean, 0) / both.length
}

/** Base-0 sum of the season from its start to a day, both included; null where the weather isn't known. */
export function sumUpTo(temperatures: Temperatures, day: number): number | null {
  return heatSumOf(temperatures.known, temperatures.start, day)?.sum ?? null
}

/**
 * The days to come, from the day after `today`: for each earlier season a row of daily means by calendar day, with
 * the forecast in front where there is one. Ends with the shortest season.
 */
export function futureYears(temperatures: Temperatures, today: number): (number | null)[][] {
  const offset = today - temperatures.start + 1
  return temperatures.past
    .filter(({ means }) => means.size > 0)
    .map(({ start, means }) => {
      const end = Math.max(...means.keys())
      return daysFrom(means, start + offset, end).map(
        (mean, index) => temperatures.forecast.get(today + 1 + index) ?? mean,
      )
    })
}

/** The day on which the season's sum comes to so much, days to come by the mean of earlier seasons; null without any. */
export function heatAhead(
  temperatures: Temperatures,
  today: number,
): ((heatSum: number) => number | null) | null {
  const years = futureYears(temperatures, today)
  if (years.length === 0 || sumUpTo(temperatures, today) === null) return null
  const sums: number[] = []
  let sum = 0
  for (let day = temperatures.start; day <= today; day++) {
    sum += Math.max(0, temperatures.known.get(day) ?? 0)
    sums.push(sum)
  }
  const length = Math.min(...years.map((year) => year.length))
  for (let ahead = 0; ahead < length; ahead++) {
    const known = years.map((year) => year[ahead]!).filter((mean) => mean !== null)
    if (known.length === 0) break
    sum += known.reduce((total, mean) => total + Math.max(0, mean), 0) / known.length
    sums.push(sum)
  }
  return (heatSum) => {
    const index = sums.findIndex((value) => value >= heatSum)
    if (index < 0) return null
    const before = index === 0 ? 0 : sums[index - 1]!
    const share = sums[index]! > before ? (heatSum - before) / (sums[index]! - before) : 1
    return temperatures.start + index - 1 + share
  }
}
