import type { Finding } from '../../ledger/read/finding.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { hashOfTexts } from '../../ledger/read/text-hash.ts'
import { readWeather } from '../../ledger/weather/weather.ts'
import { type DailyWeather, weatherOf } from './hours.ts'

const daysKnown = new WeakMap<Ledger, Map<number, readonly DailyWeather[]>>()

/**
 * The days of a season, where nothing else of its weather is wanted: of an unchanged file they are taken from the
 * cache, since past seasons are looked at each time and their hours take longest of all to read.
 */
export function weatherDaysOf(ledger: Ledger, season: number): readonly DailyWeather[] {
  const seasons = daysKnown.get(ledger) ?? new Map<number, readonly DailyWeather[]>()
  daysKnown.set(ledger, seasons)
  const days = seasons.get(season) ?? keptDays(ledger, season) ?? weatherOf(ledger, season).days
  seasons.set(season, days)
  return days
}

function keptDays(ledger: Ledger, season: number): readonly DailyWeather[] | null {
  const { cache } = ledger.reader
  const read = cache ? textsOf(ledger, season) : null
  if (!cache || !read) return null
  const { file, text, site } = read
  const [kept] = (cache.find(file, text) ?? []) as { site: string; days: DailyWeather[] }[]
  if (kept?.site === site) return kept.days
  const { days } = weatherOf(ledger, season)
  const isExact = !days.some((day) => Object.values(day).some((value) => Object.is(value, -0)))
  cache.keep(file, text, [{ site, days }], isExact)
  return days
}

/** How many rows the weather of a season has and what is wrong in it; of an unchanged file as an earlier run found. */
export function weatherLookedThrough(
  ledger: Ledger,
  season: number,
): { rows: number; findings: readonly Finding[] } {
  const { findings: kept } = ledger.reader
  const read = kept ? textsOf(ledger, season) : null
  if (!kept || !read) return readWeather(ledger, season)
  const name = `weather of ${season}`
  const hash = hashOfTexts([read.file, read.text, read.site])
  const known = kept.of(name).find((one) => one.hash === hash)
  if (known?.rows !== undefined) return { rows: known.rows, findings: known.findings }
  const { rows, findings } = readWeather(ledger, season)
  kept.keep(name, { looked: ['weather'], hash, rows, findings })
  return { rows, findings }
}

/** A weather file, and the site: how the file is read depends on it too, for its columns, its clock and its season. */
function textsOf(ledger: Ledger, season: number): { file: string; text: string; site: string } | null {
  const file = ledger.weather.get(season)
  const text = file === undefined ? undefined : ledger.reader.read(file).text
  if (file === undefined || text === undefined) return null
  return { file, text, site: ledger.vineyard.source.at.text }
}
