import type { EveryHour } from './weather-hours.ts'

export interface WeatherSums {
  /** mm of the known hours. */
  rain: number
  rainMissing: number
  /** Mean °C of the known hours; null without one. */
  temperature: number | null
  temperatureMissing: number
  /** Known hours that were too cold. */
  colderHours: number
}

/**
 * Sums up the hours from position `first` to `last` in constant time, `all` of it or the known `rain` alone,
 * counting as too cold those for which `tooCold` holds. Positions before the series count as missing hours.
 */
export function weatherSums(
  hours: EveryHour,
  tooCold: (temperature: number) => boolean,
): { all: (first: number, last: number) => WeatherSums; rain: (first: number, last: number) => number } {
  const upTo = () => new Float64Array(hours.length + 1)
  const rain = upTo()
  const rainKnown = upTo()
  const temperature = upTo()
  const temperatureKnown = upTo()
  const colder = upTo()
  for (let at = 0; at < hours.length; at++) {
    const hour = hours[at]!
    rain[at + 1] = rain[at]! + (hour.rain ?? 0)
    rainKnown[at + 1] = rainKnown[at]! + (hour.rain === null ? 0 : 1)
    temperature[at + 1] = temperature[at]! + (hour.temperature ?? 0)
    temperatureKnown[at + 1] = temperatureKnown[at]! + (hour.temperature === null ? 0 : 1)
    colder[at + 1] = colder[at]! + (hour.temperature !== null && tooCold(hour.temperature) ? 1 : 0)
  }
  const all = (first: number, last: number) => {
    const from = Math.max(0, first)
    const to = last + 1
    const length = to - first
    const known = temperatureKnown[to]! - temperatureKnown[from]!
    return {
      rain: rain[to]! - rain[from]!,
      rainMissing: length - (rainKnown[to]! - rainKnown[from]!),
      temperature: known > 0 ? (temperature[to]! - temperature[from]!) / known : null,
      temperatureMissing: length - known,
      colderHours: colder[to]! - colder[from]!,
    }
  }
  return { all, rain: (first, last) => rain[last + 1]! - rain[Math.max(0, first)]! }
}
