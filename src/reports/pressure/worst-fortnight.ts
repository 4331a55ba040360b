import { highest } from '../../agronomy/statistics/extremes.ts'
import { runningSum } from '../../agronomy/weather/running-sum.ts'
import type { PressureDay } from '../../facts/disease/days.ts'
import type { DailyWeather } from '../../facts/weather/hours.ts'
import { dayOf } from '../../records/date.ts'

/** The two weeks of the season in which most days let a disease infect, and the weather of them. */
export type WorstFortnight = NonNullable<ReturnType<typeof worstFortnight>>

const LENGTH = 14

/** The first of the fortnights with most days of infection, all diseases counted alike (our own choice); null where none has any. */
export function worstFortnight(days: readonly PressureDay[], weather: readonly DailyWeather[]) {
  const counts = days.map((day) => [isDowny, isBotrytis, isBlackRot].filter((holds) => holds(day)).length)
  const sums = [0, ...runningSum(counts)]
  const totals = days.slice(LENGTH - 1).map((_, at) => sums[at + LENGTH]! - sums[at]!)
  const most = Math.max(0, ...totals)
  if (most === 0) return null
  const start = totals.indexOf(most)
  const own = days.slice(start, start + LENGTH)
  const first = dayOf(own[0]!.date) - (weather[0]?.day ?? 0)
  const during = weather.slice(Math.max(0, first), Math.max(0, first + LENGTH))
  const known = own.flatMap(({ powdery }) => powdery.index ?? [])
  const total = (pick: (day: DailyWeather) => number | null) =>
    during.length < LENGTH || during.some((day) => pick(day) === null)
      ? null
      : during.reduce((sum, day) => sum + pick(day)!, 0)
  const warmth = total(({ mean }) => mean)
  return {
    from: own[0]!.date,
    to: own.at(-1)!.date,
    /** Greatest powdery index of its days; null where none is known. */
    powdery: known.length === 0 ? null : highest(known),
    /** Days on which a primary infection, a moderate or high botrytis risk, or a black rot infection was possible. */
    downyDays: own.filter(isDowny).length,
    botrytisDays: own.filter(isBotrytis).length,
    blackRotDays: own.filter(isBlackRot).length,
    /** mm; null where any day's is unknown. */
    rain: total(({ rain }) => rain),
    /** °C, of the daily means; null where any is unknown. */
    temperature: warmth === null ? null : warmth / LENGTH,
  }
}

const isDowny = ({ downy }: PressureDay) => downy.primary === true
const isBotrytis = ({ botrytis }: PressureDay) => botrytis.risk === 'moderate' || botrytis.risk === 'high'
const isBlackRot = ({ blackRot }: PressureDay) => blackRot.infection === true
