import type { Finding } from '../../ledger/finding.ts'
import type { Ledger } from '../../ledger/ledger.ts'
import { readWeather } from '../../ledger/weather.ts'
import { type DailyWeather, weatherOf } from './weather.ts'

/** A weather file looked through: its rows, and what is wrong in it. */
export interface LookedThrough {
  rows: number
  findings: Finding[]
}

/** What an earlier run worked out from a weather file, as far as it was asked for. */
interface Kept {
  /** How the file is read depends on the site too: the names of its columns, the clock, the season's span. */
  site: string
  days?: readonly DailyWeather[]
  looked?: LookedThrough
}

const daysKnown = new WeakMap<Ledger, Map<number, readonly DailyWeather[]>>()

/**
 * The days of a season, where nothing else of its weather is wanted: of an unchanged file they are taken from the
 * cache, since past seasons are looked at each time and their hours take longest of all to read.
 */
export function weatherDaysOf(ledger: Ledger, season: number): readonly DailyWeather[] {
  const seasons = daysKnown.get(ledger) ?? new Map<number, readonly DailyWeather[]>()
  daysKnown.set(ledger, seasons)
  const days = seasons.get(season) ?? kept(ledger, season, 'days', () => weatherOf(ledger, season).days)
  seasons.set(season, days)
  return days
}

/** How many rows the weather of a season has and what is wrong in it; of an unchanged file as an earlier run found. */
export function weatherLookedThrough(ledger: Ledger, season: number): LookedThrough {
  return kept(ledger, season, 'looked', () => {
    const { rows, findings } = readWeather(ledger, season)
    return { rows, findings }
  })
}

/** Something worked out from the weather of a season, or what an earlier run kept of it for the same file and site. */
function kept<K extends 'days' | 'looked'>(
  ledger: Ledger,
  season: number,
  what: K,
  work: () => NonNullable<Kept[K]>,
): NonNullable<Kept[K]> {
  const { cache } = ledger.reader
  const file = ledger.weather.get(season)
  const text = cache && file !== undefined ? ledger.reader.read(file).text : undefined
  if (!cache || file === undefined || text === undefined) return work()
  const site = ledger.vineyard.source.at.text
  const [found] = (cache.find(file, text) ?? []) as Kept[]
  const before = found?.site === site ? found : { site }
  const value = before[what] ?? work()
  if (!before[what]) cache.keep(file, text, [{ ...before, [what]: value }], !hasMinusZero(value))
  return value as NonNullable<Kept[K]>
}

/** JSON, in which things are kept, doesn't tell -0 from 0. */
function hasMinusZero(value: readonly DailyWeather[] | LookedThrough): boolean {
  return 'rows' in value ? false : value.some((day) => Object.values(day).some((one) => Object.is(one, -0)))
}
