import type { DayTemperatures } from '../../agronomy/heat/degree-days.ts'
import { addDays } from '../../records/date.ts'
import type { DailyWeather } from '../weather/days.ts'
import { type DateSpan, daysIn, extremes } from './window.ts'

/** The lowest and highest temperature of each day; null where unknown. */
export type Ends = readonly (DayTemperatures | null)[]

/** Longest station outage to fill, in days. Our own choice, as is the straight line. */
const LONGEST_OUTAGE = 3

/** Fills short outages by straight lines between the days around them; longer ones stay unknown. */
export function fillShortOutages(days: Ends): Ends {
  const filled = [...days]
  for (let at = 0; at < days.length; at++) {
    if (days[at] !== null) continue
    const next = days.slice(at).findIndex((one) => one !== null)
    const length = next < 0 ? days.length - at : next
    const before = filled[at - 1]
    const after = days[at + length]
    if (before && after && length <= LONGEST_OUTAGE)
      for (let step = 1; step <= length; step++) {
        const share = step / (length + 1)
        filled[at + step - 1] = {
          min: before.min + (after.min - before.min) * share,
          max: before.max + (after.max - before.max) * share,
        }
      }
    at += length - 1
  }
  return filled
}

/** Days around a span that may be neighbours of an outage at its ends. */
const MARGIN = LONGEST_OUTAGE + 1

/**
 * The days of a span with short outages filled, and as they were measured. They are filled before the span is cut out,
 * so that an outage at its end has both its neighbours.
 */
export function filledDays(
  days: readonly DailyWeather[],
  { from, to }: DateSpan,
): Record<'filled' | 'measured', Ends> {
  const measured = daysIn(days, { from: addDays(from, -MARGIN), to: addDays(to, MARGIN) }).map(extremes)
  return {
    filled: fillShortOutages(measured).slice(MARGIN, -MARGIN),
    measured: measured.slice(MARGIN, -MARGIN),
  }
}
