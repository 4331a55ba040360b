import { sugarSumStart } from '../../agronomy/heat/heat-stage.ts'
import { hemisphereOf } from '../../agronomy/heat/season-window.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { seasonSpan } from '../../ledger/read/seasons.ts'
import { dayOf, type IsoDate } from '../../records/date.ts'
import { hasWeather } from '../weather/by-hand.ts'
import { weatherDaysOf } from '../weather/in-short.ts'

/** Mean temperature of days, °C, by day number; a day that is unknown is not in it. */
export type DayMeans = ReadonlyMap<number, number>

export interface Temperatures {
  /** Day on which the base-0 sum for sugar starts. */
  start: number
  /** Days of the season up to the day that is looked from. */
  known: DayMeans
  /** Days foretold by the file that was given. */
  forecast: DayMeans
  /** Earlier seasons with weather, newest first. */
  past: { season: number; start: number; means: DayMeans }[]
}

/** The weather of a season as known on a day, that of the seasons before it, and a forecast where there is one. */
export function temperaturesOf(
  ledger: Ledger,
  { season, asOf, forecast = new Map() }: { season: number; asOf: IsoDate; forecast?: DayMeans | undefined },
): Temperatures {
  const last = dayOf(asOf)
  const all = meansOf(ledger, season)
  const past = ledger.seasons
    .filter((one) => one < season && hasWeather(ledger, one))
    .sort((a, b) => b - a)
    .map((one) => ({ season: one, start: sumStart(ledger, one), means: meansOf(ledger, one) }))
  return {
    start: sumStart(ledger, season),
    known: new Map([...all].filter(([day]) => day <= last)),
    forecast,
    past,
  }
}

const read = new WeakMap<Ledger, Map<number, DayMeans>>()

function meansOf(ledger: Ledger, season: number): DayMeans {
  const seasons = read.get(ledger) ?? new Map<number, DayMeans>()
  read.set(ledger, seasons)
  const before = seasons.get(season)
  if (before) return before
  const means = new Map<number, number>()
  for (const { day, mean } of weatherDaysOf(ledger, season)) if (mean !== null) means.set(day, mean)
  seasons.set(season, means)
  return means
}

/** 1 April of the season in the north, 1 October in the south. */
function sumStart(ledger: Ledger, season: number): number {
  const { month, day } = sugarSumStart[hemisphereOf(ledger.vineyard.latitude)]
  const { first } = seasonSpan(ledger.vineyard, season)
  const year = Number(first.slice(0, 4))
  const at = (of: number) => dayOf(`${of}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`)
  return at(year) >= dayOf(first) ? at(year) : at(year + 1)
}

/** The means from one day to another, both included, null where unknown. */
export function daysFrom(means: DayMeans, from: number, to: number): (number | null)[] {
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, index) => means.get(from + index) ?? null)
}
