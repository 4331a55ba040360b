import type { EveryHour, HourlyWeather } from './weather-hours.ts'

type WetnessBasis = 'wetness' | 'rain or humidity'
export interface WetHours {
  /** For each hour of the series: wet, dry, or null where unknown. */
  wet: (boolean | null)[]
  /** What each hour was judged by; null where unknown. */
  basis: (WetnessBasis | null)[]
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
  const wet: (boolean | null)[] = new Array(hours.length)
  const basis: (WetnessBasis | null)[] = new Array(hours.length)
  for (let at = 0; at < hours.length; at++) {
    const hour = hours[at]!
    wet[at] = hour.wetness !== null ? hour.wetness >= WET_MINUTES : wetByProxy(hour)
    basis[at] = hour.wetness !== null ? 'wetness' : wet[at] === null ? null : 'rain or humidity'
  }
  return { wet, basis }
}

function wetByProxy({ rain, humidity }: HourlyWeather): boolean | null {
  if ((rain ?? 0) > 0 || (humidity ?? 0) >= WET_HUMIDITY) return true
  return rain === null || humidity === null ? null : false
}
