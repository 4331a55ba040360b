import { runningSum } from '../../agronomy/weather/running-sum.ts'
import { type DateSpan, daysIn } from '../../facts/heat/window.ts'
import type { Weather } from '../../facts/weather/hours.ts'
import { dayOf } from '../../records/date.ts'

/**
 * Heat over the mean of each day's hours, and over the hours themselves, °C-days; what is unknown adds nothing. Null for
 * daily files.
 */
export function fromHours(weather: Weather, { span, base }: { span: DateSpan; base: number }) {
  if (weather.form !== 'hourly') return null
  const slots = daysIn(weather.days, span)
  const means = slots.map((day) => Math.max(0, (day?.mean ?? base) - base))
  const first = dayOf(span.from)
  const last = dayOf(span.to)
  const hours = weather.hours
    .filter(({ day, temperature }) => day >= first && day <= last && temperature !== null)
    .map(({ temperature }) => Math.max(0, temperature! - base) / 24)
  return {
    dailyMeans: runningSum(means).at(-1) ?? 0,
    hours: runningSum(hours).at(-1) ?? 0,
    /** Days that lack hours. */
    incompleteDays: slots.filter((day) => !day?.complete).length,
  }
}
