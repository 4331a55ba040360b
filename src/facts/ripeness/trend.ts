import {
  fitLine,
  fitQuantile,
  type LineFit,
  meanResponse,
  type Point,
} from '../../agronomy/statistics/regression.ts'
import { dayOf, isoDate } from '../../records/date.ts'
import type { CoursePoint } from '../charts/course-chart.ts'
import { type Measured, sampleDays } from './sample-day.ts'
import type { BlockSample } from './samples.ts'

/** Most sampling days used for the rate: ripening slows, so older ones mislead. */
const MOST_DAYS = 5

export type Rate = ReturnType<typeof rate>
export type RipenessTrend = ReturnType<typeof trendOf>

/** Least-squares rates of sugar, acid and pH over the last three to five sampling days of a block. */
export function trendOf(block: string, samples: readonly BlockSample[]) {
  const last = sampleDays(samples, 'brix').at(-1)
  // Acid in g/L per day; pH per day.
  return {
    block,
    /** Brix of the last sampling day, how many samples it is the mean of, and what others read that don't count. */
    lastDay: last ? { date: last.date, brix: last.mean, of: last.of, aside: last.aside } : null,
    ...rate(pointsOf(samples, 'brix')),
    ta: rate(pointsOf(samples, 'ta')),
    ph: rate(pointsOf(samples, 'ph')),
  }
}

const pointsOf = (samples: readonly BlockSample[], of: Measured): Point[] =>
  sampleDays(samples, of).map(({ date, mean }) => ({ x: dayOf(date), y: mean }))

/** A rate per day with its 95 % interval; null where `why` gives the reason. */
function rate(points: readonly Point[]) {
  const days = [...new Set(points.map(({ x }) => x))].sort((a, b) => a - b).slice(-MOST_DAYS)
  const none = { perDay: null, perDayLow: null, perDayHigh: null, n: days.length, course: [] }
  if (days.length < 3) return { ...none, why: 'samples from three days are needed' }
  const fit = fitLine(points.filter(({ x }) => days.includes(x)))
  const half = fitQuantile(fit) * fit.slopeError
  return {
    perDay: fit.slope,
    perDayLow: fit.slope - half,
    perDayHigh: fit.slope + half,
    /** Sampling days used. */
    n: days.length,
    why: null,
    /** The fitted line over the days used, with the 95 % interval of its mean; empty where there is none. */
    course: courseOf(fit, days),
  }
}

/** Points of the fitted line: enough to draw its curved interval. */
const MOST_POINTS = 9

function courseOf(fit: LineFit, days: readonly number[]): CoursePoint[] {
  const [first, last] = [days[0]!, days.at(-1)!]
  const steps = Math.min(MOST_POINTS - 1, last - first)
  return Array.from({ length: steps + 1 }, (_, step) => {
    const day = Math.round(first + ((last - first) * step) / steps)
    return { date: isoDate(day), ...meanResponse(fit, day) }
  })
}
