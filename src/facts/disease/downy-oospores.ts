import { oosporeRipeness } from '../../agronomy/disease/oospore-ripeness.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { daysIn } from '../heat/window.ts'
import type { DailyWeather } from '../weather/hours.ts'

/** Whether downy mildew's overwintered spores are ripe; primary infection needs ripe ones. */
export interface Oospores {
  /** First day of the sum, 1 January or 1 July in the south; null where the hemisphere isn't known. */
  from: IsoDate | null
  to: IsoDate
  /** °C-days above 8 °C; null where the weather file starts later than that. */
  sum: number | null
  /** Null where it can't be known. */
  ripe: boolean | null
  /** First day on which the sum was reached; null where it wasn't or can't be known. */
  ripeOn: IsoDate | null
  /** Days without a mean temperature; each makes the sum too low. */
  missing: number
  why: string | null
}

/** Ripeness on a day, from the daily means since midwinter; `latitude` is null where unknown. */
export function oosporesOn(
  days: readonly DailyWeather[],
  { latitude, to }: { latitude: number | null; to: IsoDate },
): Oospores {
  const nothing = { to, sum: null, ripe: null, ripeOn: null, missing: 0 }
  if (latitude === null)
    return { from: null, ...nothing, why: 'no latitude is given, so that the start of the sum is not known' }
  const from = startBefore(to, latitude)
  const means = daysIn(days, { from, to }).map((day, at) => ({ day: at, mean: day?.mean ?? null }))
  const known = means.findIndex(({ mean }) => mean !== null)
  if (known < 0) return { from, ...nothing, why: `no daily mean is known from ${spokenDate(from)} on` }
  if (known > 0) {
    const first = spokenDate(addDays(from, known))
    const why = `daily means are needed from ${spokenDate(from)}, and the weather file has them only from ${first}`
    return { from, ...nothing, missing: known, why }
  }
  const course = oosporeRipeness(means)
  const { sum, ripe, missingDays } = course.at(-1)!
  const first = course.find((day) => day.ripe === true)
  const why =
    missingDays === 0
      ? null
      : `${missingDays} of ${means.length} days have no mean, so the sum is at least this`
  return { from, to, sum, ripe, ripeOn: first ? addDays(from, first.day) : null, missing: missingDays, why }
}

function startBefore(to: IsoDate, latitude: number): IsoDate {
  const year = Number(to.slice(0, 4))
  if (latitude >= 0) return `${year}-01-01`
  return to.slice(5) >= '07-01' ? `${year}-07-01` : `${year - 1}-07-01`
}
