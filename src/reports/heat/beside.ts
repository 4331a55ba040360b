import { highest, lowest } from '../../agronomy/statistics/extremes.ts'
import { runningSum } from '../../agronomy/weather/running-sum.ts'
import { type DateSpan, type Ends, filledDays, shiftYears } from '../../facts/heat/window.ts'
import type { DailyWeather } from '../../facts/weather/hours.ts'
import { addDays, daysBetween } from '../../records/date.ts'

/** The sum of one season over the days compared, with its short outages filled in. */
export interface ComparedSum {
  /** °C-days; null where no day is known. */
  sum: number | null
  /** Days that were filled in straight lines between the days around them. */
  filled: number
  /** Days unknown that were not filled: the sum is at least so much. */
  missing: number
}

/** This season beside the earlier ones of the ledger, over the same days of the year, all filled in alike. */
export type HeatBeside = NonNullable<ReturnType<typeof heatBeside>>

type Count = (days: Ends) => (number | null)[]

/** Largest share of unknown days with which an earlier season is still compared. Our own choice. */
const MOST_UNKNOWN = 0.05
/** Days past the requested day through which the mean course is followed, to place a season ahead of it. */
const BEYOND = 60

/** Compares with earlier seasons; null where none has weather for the days. */
export function heatBeside(from: {
  earlier: readonly { season: number; days: readonly DailyWeather[] }[]
  /** Days of this season, as far as they count. */
  days: readonly DailyWeather[]
  span: DateSpan
  season: number
  count: Count
}) {
  const { earlier, span, season, count } = from
  const now = summed(from.days, { span, count })
  const length = now.course.length
  const rated = earlier.map(({ season: other, days }) => {
    const own = summed(days, { span: shiftYears(span, other - season), count, beyond: BEYOND })
    const { sum, missing } = own.sum
    return { season: other, ...own, used: sum !== null && missing <= length * MOST_UNKNOWN }
  })
  const used = rated.filter((one) => one.used)
  if (used.length === 0) return null
  // A season without a 29 February ends a day sooner, on the same date.
  const along = (pick: (values: number[]) => number) =>
    now.course.map((_, at) => pick(used.map(({ course }) => course[Math.min(at, course.length - 1)]!)))
  const course = { values: along(meanOf), lowest: along(lowest), highest: along(highest) }
  const mean = course.values.at(-1)!
  const far = Array.from({ length: lowest(used.map(({ far }) => far.length)) }, (_, at) =>
    meanOf(used.map(({ far }) => far[at]!)),
  )
  const today = now.sum.sum
  const reached = today === null ? -1 : far.findIndex((value) => value >= today)
  const open = used.filter(({ sum }) => sum.missing > 0).map(({ season }) => `${season}`)
  if (now.sum.missing > 0) open.unshift('this season')
  return {
    now: now.sum,
    seasons: rated.map(({ season, sum, used }) => ({ season, ...sum, used })),
    /** Of the seasons used; °C-days. */
    mean,
    low: course.lowest.at(-1)!,
    high: course.highest.at(-1)!,
    /** This season less the mean; null where this season's sum is unknown. */
    difference: today === null ? null : today - mean,
    /** Days by which the mean reaches this season's sum later; null where it doesn't within two months. */
    daysAhead: reached < 0 ? null : reached - (length - 1),
    /** What the comparison lacks; null where nothing does. */
    why: open.length === 0 ? null : `days unknown count as none in ${open.join(', ')}`,
    /** Course of the sums day by day. */
    course,
  }
}

const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

/** The sum over a span, and its course day by day; `far` goes on for the days beyond it. */
function summed(
  days: readonly DailyWeather[],
  { span, count, beyond = 0 }: { span: DateSpan; count: Count; beyond?: number },
): { sum: ComparedSum; course: number[]; far: number[] } {
  const length = daysBetween(span.from, span.to) + 1
  const { filled, measured } = filledDays(days, { from: span.from, to: addDays(span.to, beyond) })
  const values = count(filled)
  const far = runningSum(values.map((value) => value ?? 0))
  const unknown = (list: readonly unknown[]) => list.slice(0, length).filter((day) => day === null).length
  const missing = unknown(values)
  const sum = missing === length ? null : far[length - 1]!
  return { sum: { sum, filled: unknown(measured) - missing, missing }, course: far.slice(0, length), far }
}
