import { lowest } from '../../agronomy/statistics/extremes.ts'
import type { ReportInput } from '../../facts/report.ts'
import { sampleDays } from '../../facts/ripeness/sample-day.ts'
import { samplesOf } from '../../facts/ripeness/samples.ts'
import { trendOf } from '../../facts/ripeness/trend.ts'
import { dayOf, type IsoDate } from '../../records/date.ts'

/** Sugar of one block in one season, by days of the season and by heat. */
export interface SugarCourse {
  /** Brix by day of the season, oldest first. */
  byDay: { x: number; brix: number }[]
  /** Brix by heat sum, °C-days above 10; only days up to which no day's heat is missing. */
  byHeat: { x: number; brix: number }[]
  /** Brix a day, over the last sampling days; null where there are too few. */
  perDay: number | null
}

/** @param heatUpTo the season's heat sum up to each day; @param first the first day of the season */
export function sugarCourse(
  { ledger, asOf }: ReportInput,
  of: { block: string; season: number; heatUpTo: ReadonlyMap<IsoDate, number>; first: IsoDate },
): SugarCourse {
  const { block, season, heatUpTo, first } = of
  const samples = samplesOf(ledger, { block, season, asOf })
  const means = sampleDays(samples, 'brix').map(({ date, mean }) => ({ date, brix: mean }))
  const byHeat = means.flatMap(({ date, brix }) => {
    const x = heatUpTo.get(date)
    return x === undefined ? [] : [{ x, brix }]
  })
  const byDay = means.map(({ date, brix }) => ({ x: dayOf(date) - dayOf(first), brix }))
  return { byDay, byHeat, perDay: trendOf(block, samples).perDay }
}

/**
 * The latest place that the samples of all seasons reach, and the Brix of each there, on a straight line between
 * the samples around it; null where the seasons have no place in common.
 */
export function atCommonPlace(
  courses: readonly (readonly { x: number; brix: number }[])[],
): { x: number; brix: number[] } | null {
  if (courses.some((course) => course.length === 0)) return null
  const x = lowest(courses.map((course) => course.at(-1)!.x))
  const brix = courses.map((course) => onLine(course, x))
  return brix.every((value) => value !== null) ? { x, brix } : null
}

function onLine(course: readonly { x: number; brix: number }[], x: number): number | null {
  const after = course.findIndex((point) => point.x >= x)
  const b = course[after]
  const a = course[after - 1]
  if (!b || (!a && b.x !== x)) return null
  if (!a || b.x === x) return b.brix
  return a.brix + ((b.brix - a.brix) * (x - a.x)) / (b.x - a.x)
}
