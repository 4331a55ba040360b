import { NO_WARMTH, warmthOf } from '../../agronomy/ripening/warmth.ts'
import { highest } from '../../agronomy/statistics/extremes.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { dayOf, type IsoDate } from '../../records/date.ts'
import { weatherDaysOf } from '../weather/in-short.ts'

/** Mean temperatures, °C, by day number; unknown days are left out. */
export type DayMeans = ReadonlyMap<number, number>

/** Days of weather before the day of the report used for the usual temperature. */
const WEATHER_BEFORE = 60

/** Warmth from the season's weather up to a day and the forecast after it, and which of the two there is. */
export function warmthIn(
  ledger: Ledger,
  { season, asOf, forecast = new Map() }: { season: number; asOf: IsoDate; forecast?: DayMeans | undefined },
) {
  const today = dayOf(asOf)
  const means = new Map<number, number>()
  for (const { day, mean } of weatherDaysOf(ledger, season))
    if (mean !== null && day >= today - WEATHER_BEFORE && day <= today) means.set(day, mean)
  const last = highest(means.keys())
  const ahead = [...forecast].filter(([day]) => day > last)
  const of = means.size === 0 ? NO_WARMTH : warmthOf(new Map([...means, ...ahead]), last)
  const isKnown = of(last) !== undefined
  return { of, isKnown, isForetold: isKnown && ahead.length > 0 }
}
