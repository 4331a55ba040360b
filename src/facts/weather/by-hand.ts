import { highest, lowest } from '../../agronomy/statistics/extremes.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import type { StationDay } from '../../ledger/weather/days.ts'
import { addDays, dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { shortSpan } from '../../records/spoken-date.ts'
import { listed } from '../sentences.ts'
import { type DailyWeather, unknownDay } from './days.ts'

/** A day read from a max-min thermometer and a rain gauge. `null` was not read: unknown, never zero. */
export type DayByHand = Omit<StationDay, 'mean'>

/** The days of a season that were read by hand, oldest first; the first entry for a day counts. */
export function daysByHand(ledger: Ledger, season: number): DayByHand[] {
  const days = new Map<number, DayByHand>()
  for (const { date, low = null, high = null, rain = null, season: own } of ledger.weather) {
    if (own !== season) continue
    const day = dayOf(date)
    if (!days.has(day)) days.set(day, { day, min: low, max: high, rain })
  }
  return [...days.values()].sort((a, b) => a.day - b.day)
}

/**
 * A station's days, with gaps filled from readings by hand; what neither has stays unknown. `byHand` marks
 * the days that were filled.
 */
export function filledByHand(
  station: readonly DailyWeather[],
  hand: readonly DayByHand[],
): readonly DailyWeather[] {
  if (hand.length === 0) return station
  const known = new Map(station.map((day) => [day.day, day]))
  const ends = [station[0]?.day, station.at(-1)?.day, hand[0]!.day, hand.at(-1)!.day].filter(
    (day) => day !== undefined,
  )
  const byHand = new Map(hand.map((day) => [day.day, day]))
  const days: DailyWeather[] = []
  for (let day = lowest(ends); day <= highest(ends); day++)
    days.push(filled(known.get(day) ?? unknownDay(day), byHand.get(day)))
  return days
}

function filled(day: DailyWeather, hand: DayByHand | undefined): DailyWeather {
  if (!hand) return day
  const min = day.min ?? hand.min
  const max = day.max ?? hand.max
  const rain = day.rain ?? hand.rain
  if (min === day.min && max === day.max && rain === day.rain) return day
  const both = min !== null && max !== null
  const mean = day.mean ?? (both ? (min + max) / 2 : null)
  return {
    ...day,
    min,
    max,
    rain,
    mean,
    hours: both ? 24 : day.hours,
    complete: day.complete || both,
    byHand: true,
  }
}

/** Days of a span that were filled by hand because the station has no data; null where there is no station. */
export const besideStation = (
  weather: { station: { form: string | null }; days: readonly DailyWeather[] },
  { from, to }: { from: IsoDate; to: IsoDate },
): IsoDate[] | null =>
  weather.station.form === null
    ? null
    : weather.days
        .filter(({ byHand }) => byHand)
        .map(({ day }) => isoDate(day))
        .filter((date) => date >= from && date <= to)

/** The days in a sentence; null where there are none. */
export function byHandText(dates: readonly IsoDate[] | null): string | null {
  if (!dates || dates.length === 0) return null
  const spans: { from: IsoDate; to: IsoDate }[] = []
  for (const date of dates) {
    const last = spans.at(-1)
    if (last && addDays(last.to, 1) === date) last.to = date
    else spans.push({ from: date, to: date })
  }
  const said = spans.slice(-SPANS_SAID).map(({ from, to }) => shortSpan(from, to))
  const count = dates.length === 1 ? '1 day' : `${dates.length} days`
  return `Your own readings fill ${count} that the station lacks${spans.length > SPANS_SAID ? ', last' : ':'} ${listed(said)}.`
}

/** Most spans of days named in one sentence. */
const SPANS_SAID = 3

/** Whether any weather is recorded for a season, by a station or by hand. */
export const hasWeather = (ledger: Ledger, season: number): boolean =>
  ledger.stations.has(season) || ledger.weather.some((day) => day.season === season)
