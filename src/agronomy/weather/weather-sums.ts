import type { EveryHour, HourlyWeather } from './weather-hours.ts'

/**
 * Sums up the hours from position `first` to `last` in constant time, `all` of it or the known `rain` alone,
 * counting as too cold those for which `tooCold` holds. Positions before the series count as missing hours.
 */
export function weatherSums(hours: EveryHour, tooCold: (temperature: number) => boolean) {
  const summed = (value: (hour: HourlyWeather) => number) => {
    const upTo = new Float64Array(hours.length + 1)
    for (let at = 0; at < hours.length; at++) upTo[at + 1] = upTo[at]! + value(hours[at]!)
    return (first: number, last: number) => upTo[last + 1]! - upTo[Math.max(0, first)]!
  }
  const rain = summed((hour) => hour.rain ?? 0)
  const rainKnown = summed((hour) => (hour.rain === null ? 0 : 1))
  const temperature = summed((hour) => hour.temperature ?? 0)
  const temperatureKnown = summed((hour) => (hour.temperature === null ? 0 : 1))
  const colder = summed((hour) => (hour.temperature !== null && tooCold(hour.temperature) ? 1 : 0))
  const all = (first: number, last: number) => {
    const length = last + 1 - first
    const known = temperatureKnown(first, last)
    return {
      /** mm of the known hours. */
      rain: rain(first, last),
      rainMissing: length - rainKnown(first, last),
      /** Mean °C of the known hours; null without one. */
      temperature: known > 0 ? temperature(first, last) / known : null,
      temperatureMissing: length - known,
      /** Known hours that were too cold. */
      colderHours: colder(first, last),
    }
  }
  return { all, rain }
}

export type WeatherSums = ReturnType<ReturnType<typeof weatherSums>['all']>
