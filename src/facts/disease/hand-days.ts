import type { HourlyWeather } from '../../agronomy/weather/weather-hours.ts'
import { dayOf } from '../../records/date.ts'
import { groupedBy } from '../judged.ts'
import type { DailyWeather } from '../weather/days.ts'
import { dailyPressureDays } from './daily-days.ts'
import type { PressureDay, PressureSite } from './days.ts'

/** The days by a station's hours; days that were read by hand or have no hours fill in what these leave unknown. */
export function withHandDays(
  byHours: readonly PressureDay[],
  days: readonly DailyWeather[],
  site: PressureSite,
): readonly PressureDay[] {
  if (!days.some(({ byHand }) => byHand)) return byHours
  const known = new Map(byHours.map((day) => [day.date, day]))
  return dailyPressureDays(days, site).map((byDay, at) => {
    const own = known.get(byDay.date)
    if (!own) return byDay
    // The downy mildew rule looks back at the day before.
    const isFilled = days[at]!.byHand || days[at - 1]?.byHand
    if (!isFilled || own.downy.primary !== null) return own
    const { primary, why } = byDay.downy
    return { ...own, daily: byDay.daily!, downy: { ...own.downy, primary, why } }
  })
}

/** The temperatures of a station's hours; each hour of a day read by hand gets that day's mean. */
export function withHandHours(
  hours: readonly HourlyWeather[],
  days: readonly DailyWeather[],
  to: string,
): { day: number; temperature: number | null }[] {
  if (!days.some(({ byHand }) => byHand)) return [...hours]
  const byDay = groupedBy(hours, ({ day }) => String(day))
  return days
    .filter(({ day }) => day <= dayOf(to))
    .flatMap(({ day, mean, byHand }) => {
      const own = byDay.get(String(day))
      if (own && !byHand) return own
      return Array.from({ length: 24 }, (_, at) => ({ day, temperature: own?.[at]?.temperature ?? mean }))
    })
}
