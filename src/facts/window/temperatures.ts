import type { Ledger } from '../../ledger/read/ledger.ts'
import { weatherDaysOf } from '../weather/in-short.ts'

/** Mean temperatures, °C, by day number; unknown days are left out. */
export type DayMeans = ReadonlyMap<number, number>

/** Daily means of a season's weather between two days, both included. */
export function meansBetween(
  ledger: Ledger,
  { season, from, to }: { season: number; from: number; to: number },
): DayMeans {
  const means = new Map<number, number>()
  for (const { day, mean } of weatherDaysOf(ledger, season))
    if (mean !== null && day >= from && day <= to) means.set(day, mean)
  return means
}
