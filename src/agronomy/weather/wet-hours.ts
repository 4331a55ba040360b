import type { EveryHour, HourlyWeather } from './weather-hours.ts'

export interface WetHours {
  /** For each hour of the series: wet, dry, or null where unknown. */
  wet: (boolean | null)[]
  /** What each hour was judged by; null where unknown. */
  basis: ('wetness' | 'rain or humidity' | null)[]
}

/** Minutes of measured wetness from which an hour is wet. */
const WET_MINUTES = 30
/** Relative humidity, %, from which an hour without a wetness reading counts as wet. */
const WET_HUMIDITY = 90

/**
 * Which hours were wet. Where the station measured leaf wetness, an hour is wet from 30 minutes; elsewhere by a proxy,
 * any rain or relative humidity of 90 % or more. By proxy an hour is dry only where rain and humidity are both known.
 * Both limits: common practice, no source.
 */
export function wetHours(hours: EveryHour): WetHours {
  const wet = hours.map((hour) => (hour.wetness !== null ? hour.wetness >= WET_MINUTES : wetByProxy(hour)))
  const basis = hours.map(({ wetness }, at) =>
    wetness !== null ? 'wetness' : wet[at] === null ? null : 'rain or humidity',
  )
  return { wet, basis }
}

function wetByProxy({ rain, humidity }: HourlyWeather): boolean | null {
  if ((rain ?? 0) > 0 || (humidity ?? 0) >= WET_HUMIDITY) return true
  return rain === null || humidity === null ? null : false
}
