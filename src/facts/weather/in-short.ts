import type { Finding } from '../../ledger/read/finding.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { type DayByHand, daysByHand, filledByHand } from './by-hand.ts'
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

const known = new WeakMap<Ledger, Map<number, WeatherInShort>>()

/**
 * The days of a season, and the findings of its file. For an unchanged file they come from the cache: past seasons
 * are needed every time, and their hours are the slowest to read.
 */
export function weatherInShort(ledger: Ledger, season: number): WeatherInShort {
  const seasons = known.get(ledger) ?? new Map<number, WeatherInShort>()
  known.set(ledger, seasons)
  const weather = seasons.get(season) ?? withHand(keptOrRead(ledger, season), daysByHand(ledger, season))
  seasons.set(season, weather)
  return weather
}

/** The station's own data for a day; undefined where it has none. */
export const stationDayOf = (ledger: Ledger, season: number, day: number): DailyWeather | undefined =>
  keptOrRead(ledger, season).days.find((one) => one.day === day)

const withHand = (weather: WeatherInShort, hand: readonly DayByHand[]): WeatherInShort => ({
  ...weather,
  days: filledByHand(weather.days, hand),
})

function keptOrRead(ledger: Ledger, season: number): WeatherInShort {
  const { cache } = ledger.reader
  const file = ledger.stations.get(season)
  const text = file === undefined ? undefined : ledger.reader.read(file).text
  if (!cache || file === undefined || text === undefined) return readInShort(ledger, season)
  // How the file is read depends on the site too: its columns, its clock, its season.
  const site = ledger.vineyard.source.at.text
  const [kept] = (cache.find(file, text) ?? []) as (WeatherInShort & { site: string })[]
  if (kept?.site === site) return kept
  const weather = readInShort(ledger, season)
  cache.keep(file, text, [{ site, ...weather }])
  return weather
}

function readInShort(ledger: Ledger, season: number): WeatherInShort {
  const { station } = seasonWeather(ledger, season, { keep: false })
  return { rows: station.rows, findings: station.findings, days: new Weather(station).days }
}
