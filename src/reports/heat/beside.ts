import { highest, lowest } from '../../agronomy/statistics/extremes.ts'
import { runningSum } from '../../agronomy/weather/running-sum.ts'
import { type Ends, fillShortOutages } from '../../facts/heat/outages.ts'
import { type DateSpan, daysIn, extremes, shiftYears } from '../../facts/heat/window.ts'
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

type Count = (days: readonly (Ends | null)[]) => (number | null)[]

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
  const length = daysBetween(span.from, span.to) + 1
  const rated = earlier.map(({ season: other, days }) => {
    const shifted = shiftYears(span, other - season)
    const own = summed(days, { span: shifted, count })
    const far = summed(days, { span: { ...shifted, to: addDays(shifted.to, BEYOND) }, count })
    const used = own.sum !== null && own.missing <= length * MOST_UNKNOWN
    return { season: other, ...own, used, far: far.course }
  })
  const used = rated.filter((one) => one.used)
  if (used.length === 0) return null
  const at = (pick: (values: number[]) => number) =>
    Array.from({ length }, (_, index) =>
      pick(used.map(({ course }) => course[Math.min(index, course.length - 1)]!)),
    )
  const values = at(meanOf)
  const mean = values.at(-1)!
  const course = { values, lowest: at((all) => lowest(all)), highest: at((all) => highest(all)) }
  return {
    now: plain(now),
    seasons: rated.map(({ season, used, ...one }) => ({ season, ...plain(one), used })),
    /** Of the seasons used; °C-days. */
    mean,
    low: course.lowest.at(-1)!,
    high: course.highest.at(-1)!,
    /** This season less the mean; null where this season's sum is unknown. */
    difference: now.sum === null ? null : now.sum - mean,
    /** Days by which the mean reaches this season's sum later; null where it doesn't within two months. */
    daysAhead: now.sum === null ? null : daysAhead(now.sum, { used, today: length - 1 }),
    /** What the comparison lacks; null where nothing does. */
    why: whyOpen(now, used),
    /** Course of the sums day by day. */
    course,
  }
}

const plain = ({ sum, filled, missing }: ComparedSum): ComparedSum => ({ sum, filled, missing })
const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

/** Outages are filled before the span is cut out, so that one at its end has both its neighbours. */
function summed(
  days: readonly DailyWeather[],
  { span, count }: { span: DateSpan; count: Count },
): ComparedSum & { course: number[] } {
  const before = daysIn(days, span).map(extremes)
  const wide = { from: addDays(span.from, -MARGIN), to: addDays(span.to, MARGIN) }
  const filled = fillShortOutages(daysIn(days, wide).map(extremes)).slice(MARGIN, -MARGIN)
  const values = count(filled)
  const missing = values.filter((value) => value === null).length
  const course = runningSum(values.map((value) => value ?? 0))
  const unknown = before.filter((day) => day === null).length
  return {
    sum: missing === values.length ? null : course.at(-1)!,
    filled: unknown - missing,
    missing,
    course,
  }
}

/** Days around a span that may be neighbours of an outage at its ends. */
const MARGIN = 4

function whyOpen(now: ComparedSum, used: readonly (ComparedSum & { season: number })[]): string | null {
  const open = used.filter(({ missing }) => missing > 0).map(({ season }) => `${season}`)
  if (now.missing > 0) open.unshift('this season')
  return open.length === 0 ? null : `days unknown count as none in ${open.join(', ')}`
}

function daysAhead(
  sum: number,
  { used, today }: { used: readonly { far: readonly number[] }[]; today: number },
): number | null {
  const length = lowest(used.map(({ far }) => far.length))
  for (let index = 0; index < length; index++)
    if (meanOf(used.map(({ far }) => far[index]!)) >= sum) return index - today
  return null
}
