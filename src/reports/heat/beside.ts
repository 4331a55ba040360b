import { runningSum } from '../../agronomy/running-sum.ts'
import type { DailyWeather } from '../../rules/facts/weather.ts'
import { type DateSpan, daysIn, shiftYears } from './window.ts'

/** This season beside the earlier ones of the ledger, over the same days of the year. */
export interface HeatBeside {
  seasons: { season: number; sum: number | null; missing: number; used: boolean }[]
  /** Of the seasons used; °C-days. */
  mean: number
  low: number
  high: number
  /** This season less the mean; null where this season's sum is unknown. */
  difference: number | null
  /** Days by which the mean reaches this season's sum later; null where it doesn't within the same window. */
  daysAhead: number | null
  /** Course of the sums day by day. */
  course: { values: (number | null)[]; lowest: (number | null)[]; highest: (number | null)[] }
}

/** Largest share of unknown days with which an earlier season is still compared. Our own choice. */
const MOST_UNKNOWN = 0.05

/** Compares with earlier seasons; null where none has weather for the days. */
export function heatBeside(from: {
  earlier: readonly { season: number; days: readonly DailyWeather[] }[]
  now: DateSpan & { sum: number | null }
  season: number
  count: (days: readonly (DailyWeather | null)[]) => (number | null)[]
}): HeatBeside | null {
  const { earlier, now, season, count } = from
  const rated = earlier.map((one) => {
    const values = count(daysIn(one.days, shiftYears(now, one.season - season)))
    const missing = values.filter((value) => value === null).length
    const sums = runningSum(values.map((value) => value ?? 0))
    const used = values.length > 0 && missing <= values.length * MOST_UNKNOWN
    return {
      season: one.season,
      sum: missing === values.length ? null : sums.at(-1)!,
      missing,
      used,
      sums,
      one,
    }
  })
  const used = rated.filter((one) => one.used)
  if (used.length === 0) return null
  const length = Math.max(...used.map(({ sums }) => sums.length))
  const at = (pick: (values: number[]) => number) =>
    Array.from({ length }, (_, index) =>
      pick(used.map(({ sums }) => sums[Math.min(index, sums.length - 1)]!)),
    )
  const values = at(meanOf)
  const mean = values.at(-1)!
  const course = { values, lowest: at((all) => Math.min(...all)), highest: at((all) => Math.max(...all)) }
  return {
    seasons: rated.map(({ season, sum, missing, used }) => ({ season, sum, missing, used })),
    mean,
    low: course.lowest.at(-1)!,
    high: course.highest.at(-1)!,
    difference: now.sum === null ? null : now.sum - mean,
    daysAhead: now.sum === null ? null : daysAhead(now.sum, { now, season, used, count }),
    course,
  }
}

const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

/** The mean course is followed for two months past the day, so that a season ahead of it can be placed. */
function daysAhead(
  sum: number,
  from: {
    now: DateSpan
    season: number
    used: readonly { season: number; one: { days: readonly DailyWeather[] } }[]
    count: (days: readonly (DailyWeather | null)[]) => (number | null)[]
  },
): number | null {
  const { now, season, used, count } = from
  const beyond = used.map(({ season: other, one }) => {
    const { from: start } = shiftYears(now, other - season)
    const days = daysIn(one.days, {
      from: start,
      to: shiftYears({ ...now, to: endOf(now) }, other - season).to,
    })
    return runningSum(count(days).map((value) => value ?? 0))
  })
  const length = Math.min(...beyond.map(({ length }) => length))
  const today = daysIn([], now).length - 1
  for (let index = 0; index < length; index++)
    if (meanOf(beyond.map((sums) => sums[index]!)) >= sum) return index - today
  return null
}

function endOf({ to }: DateSpan): string {
  return new Date(Date.parse(`${to}T00:00:00Z`) + 60 * 86_400_000).toISOString().slice(0, 10)
}
