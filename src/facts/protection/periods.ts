import type { RainPeriod } from '../../agronomy/weather/rain-count.ts'
import { hourNumber } from '../../agronomy/weather/weather-hours.ts'
import { readingAt } from '../../ledger/weather/table.ts'
import type { Weather } from '../weather/hours.ts'

/**
 * Rain by consecutive periods without a gap, from a day or earlier: hours, or days of a daily file or
 * of a rain gauge read by hand.
 */
export function rainPeriods(weather: Weather, from: number): RainPeriod[] {
  const { days, form } = weather
  if (form === 'daily') return days.map(rainOfDay)
  if (!days.some(({ byHand }) => byHand)) return hourlyRain(weather, from)
  const hours = hourlyRain(weather, Number.NEGATIVE_INFINITY)
  const byDay = new Map<number, RainPeriod[]>()
  for (const hour of hours) {
    const day = Math.floor(hour.from / 24)
    byDay.set(day, [...(byDay.get(day) ?? []), hour])
  }
  return days.flatMap((day) => {
    const own = byDay.get(day.day) ?? []
    const isUsed =
      own.length === 0 || (day.byHand && day.rain !== null && own.some(({ rain }) => rain === null))
    if (!isUsed) return own
    const seen = own.reduce((sum, { rain }) => sum + (rain ?? 0), 0)
    // Where both have part of a day, the one with more rain counts.
    return [{ ...rainOfDay(day), rain: day.rain === null ? null : Math.max(day.rain, seen) }]
  })
}

const rainOfDay = ({ day, rain }: { day: number; rain: number | null }): RainPeriod => ({
  from: day * 24,
  to: day * 24 + 24,
  rain,
})

function hourlyRain(weather: Weather, day: number): RainPeriod[] {
  const { table, changes } = weather.station.hours
  const periods: RainPeriod[] = []
  const first = table.day.subarray(0, table.length).findIndex((one) => one >= day)
  // From the row before, so that hours missing before the day's first row count as missing.
  for (let at = Math.max(0, (first < 0 ? table.length : first) - 1); at < table.length; at++) {
    const number = hourNumber(table.day[at]!, table.hour[at]!)
    const rain = readingAt(table, 'rain', at)
    const last = periods.at(-1)
    // An hour that a clock change repeats is one period here; one that it skips belongs to the next.
    if (last && last.to > number) {
      last.rain = last.rain === null || rain === null ? null : last.rain + rain
      continue
    }
    let from = last?.to ?? number
    for (let hour = from; hour < number; hour++) {
      if (changes.skipped.has(hour)) continue
      periods.push({ from, to: hour + 1, rain: null })
      from = hour + 1
    }
    periods.push({ from, to: number + 1, rain })
  }
  return periods
}

/** The periods that overlap the time from one hour number to another. */
export function periodsBetween(periods: readonly RainPeriod[], from: number, to: number): RainPeriod[] {
  return periods.slice(firstBehind(periods, from), firstBehind(periods, to) + 1)
}

/** Index of the first period that ends after an hour. */
function firstBehind(periods: readonly RainPeriod[], hour: number): number {
  let low = 0
  let high = periods.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (periods[middle]!.to > hour) high = middle
    else low = middle + 1
  }
  return low
}

/** End of the last hour whose rain is known, as an hour number; null where none is. */
export function rainKnownUntil(periods: readonly RainPeriod[]): number | null {
  return periods.findLast(({ rain }) => rain !== null)?.to ?? null
}

/**
 * Rain from one hour number to another, in mm; null where any of it is unknown. A period that began earlier
 * counts in full, as it does for protection.
 */
export function rainBetween(periods: readonly RainPeriod[]): (from: number, to: number) => number | null {
  return (from, to) => {
    if (to <= from) return 0
    const start = firstBehind(periods, from)
    const end = firstBehind(periods, to - 1e-6)
    if (!periods[start] || periods[start].from > from || !periods[end]) return null
    let sum = 0
    for (let at = start; at <= end; at++) {
      const { rain } = periods[at]!
      if (rain === null) return null
      sum += rain
    }
    return sum
  }
}
