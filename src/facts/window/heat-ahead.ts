import type { DayAtHeatSum } from '../../agronomy/ripening/sugar-basis.ts'
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

/**
 * The day on which the season's sum comes to so much, days to come by the mean of earlier seasons, or by the warmest or
 * coolest of them up to that sum; null without any.
 */
export function heatAhead(temperatures: Temperatures, today: number): DayAtHeatSum | null {
  const years = futureYears(temperatures, today)
  if (years.length === 0 || sumUpTo(temperatures, today) === null) return null
  const begun: number[] = []
  let sum = 0
  for (let day = temperatures.start; day <= today; day++) {
    sum += Math.max(0, temperatures.known.get(day) ?? 0)
    begun.push(sum)
  }
  const length = Math.min(...years.map((year) => year.length))
  const mean = Array.from({ length }, (_, ahead) => meanOf(years.map((year) => year[ahead]!)))
  const onwards = (means: readonly (number | null)[]): number[] => {
    const sums = [...begun]
    let total = sum
    for (const [ahead, one] of means.slice(0, length).entries()) {
      const known = one ?? mean[ahead]!
      if (known === null) break
      total += Math.max(0, known)
      sums.push(total)
    }
    return sums
  }
  const usual = onwards(mean)
  const all = [usual, ...years.map(onwards)]
  return (heatSum, pace) => {
    const likely = dayAt(usual, heatSum, temperatures.start)
    if (pace === 'mean' || likely === null) return likely
    const days = all.map((sums) => dayAt(sums, heatSum, temperatures.start))
    if (days.includes(null)) return null
    const known = days.map((day) => day!)
    return pace === 'warmest' ? Math.min(...known) : Math.max(...known)
  }
}

function meanOf(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null)
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length
}

/** The day, with its fraction, on which sums that begin on `start` come to so much; null where they never do. */
function dayAt(sums: readonly number[], heatSum: number, start: number): number | null {
  const index = sums.findIndex((value) => value >= heatSum)
  if (index < 0) return null
  const before = index === 0 ? 0 : sums[index - 1]!
  const share = sums[index]! > before ? (heatSum - before) / (sums[index]! - before) : 1
  return start + index - 1 + share
}
