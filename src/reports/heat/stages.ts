import type { DaySum } from '../../agronomy/heat/degree-days.ts'
import { runningSum } from '../../agronomy/weather/running-sum.ts'
import { type DateSpan, daysIn } from '../../facts/heat/window.ts'
import type { ReportInput } from '../../facts/report.ts'
import type { Weather } from '../../facts/weather/hours.ts'
import { dayOf, daysBetween, type IsoDate } from '../../records/date.ts'
import { GROWTH_STAGES, nearestStage } from '../../records/growth-stage.ts'

/** How long ago a block reached a growth stage, in days and in heat. */
export type StageHeat = ReturnType<typeof stageHeat>[number]

/** The growth stages seen this season, each on the first day that it was seen. */
export function stageHeat({ ledger, season, asOf, blocks }: ReportInput, since: (date: IsoDate) => DaySum) {
  const seen = new Set<string>()
  return blocks.flatMap(({ id }) =>
    ledger.stages
      .filter((entry) => entry.block === id && entry.season === season && entry.date <= asOf)
      .filter(({ stage }) => !seen.has(`${id} ${stage}`) && seen.add(`${id} ${stage}`))
      .map(({ stage, date }) => {
        const { sum, missing } = since(date)
        const name = GROWTH_STAGES.get(stage) ?? GROWTH_STAGES.get(nearestStage(stage)) ?? ''
        return {
          block: id,
          stage,
          name,
          date,
          days: daysBetween(date, asOf),
          /** °C-days from the day after; null where no day is known. */
          degreeDays: sum,
          missing,
        }
      }),
  )
}

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
