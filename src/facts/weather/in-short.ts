import type { Finding } from '../../ledger/read/finding.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { weatherCache } from '../../ledger/weather/kept-weather.ts'
import { daysByHand, filledByHand } from './by-hand.ts'
import { type DailyWeather, refuseUnread, seasonWeather, Weather } from './hours.ts'

/** A season's weather without its hours. */
interface WeatherInShort {
  /** Rows of the file that were read. */
  rows: number
  findings: readonly Finding[]
  days: readonly DailyWeather[]
}

/** The days of a season's weather. @throws CannotRead where the season has a file and it can't be read. */
export function weatherDaysOf(ledger: Ledger, season: number): readonly DailyWeather[] {
  const { findings, days } = weatherInShort(ledger, season)
  refuseUnread(findings)
  return days
}

const inShort = new WeakMap<Ledger, Map<number, WeatherInShort>>()

/**
 * The days of a season, and the findings of its file. For an unchanged file they come from the cache: past seasons
 * are needed every time, and their hours are the slowest to read.
 */
export function weatherInShort(ledger: Ledger, season: number): WeatherInShort {
  const seasons = inShort.get(ledger) ?? new Map<number, WeatherInShort>()
  inShort.set(ledger, seasons)
  const known = seasons.get(season)
  if (known) return known
  const weather = keptOrRead(ledger, season)
  const filled = { ...weather, days: filledByHand(weather.days, daysByHand(ledger, season)) }
  seasons.set(season, filled)
  return filled
}

/** The station's own data for a day; undefined where it has none. */
export const stationDayOf = (ledger: Ledger, season: number, day: number): DailyWeather | undefined =>
  keptOrRead(ledger, season).days.find((one) => one.day === day)

function keptOrRead(ledger: Ledger, season: number): WeatherInShort {
  const cache = weatherCache<WeatherInShort>(ledger, season)
  const kept = cache?.find()
  if (kept) return kept
  const { station } = seasonWeather(ledger, season, { keep: false })
  const { rows, findings } = station
  const weather = { rows, findings, days: new Weather(station).days }
  cache?.keep(weather)
  return weather
}
