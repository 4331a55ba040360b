import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import type { JudgedLedger } from '../judged.ts'
import { weatherInShort } from './in-short.ts'

/**
 * 85 °F in °C: at or above this on the day of spraying or the next, sulphur may burn (University of Georgia 2017,
 * read).
 */
export const HOT_DAY = (85 - 32) / 1.8
/** °C from which it is a warning rather than a hint. Common practice, no source. */
export const VERY_HOT_DAY = 35

/** The hotter of the day of spraying and the next, as far as both are known. */
interface HeatAround {
  /** °C; null where neither day is known. */
  highest: number | null
  date: IsoDate | null
  /** Whether the day was measured, or comes from a forecast. */
  by: 'measured' | 'forecast' | null
  /** Whether the next day is known too. */
  complete: boolean
}

/** How hot it was, or will be, on the day of a spray and the next: by the station, else by a forecast. */
export function heatAround(
  { ledger, heatAhead }: JudgedLedger,
  spray: Pick<SprayEntry, 'date' | 'season'>,
): HeatAround {
  const first = dayOf(spray.date)
  const { days } = weatherInShort(ledger, spray.season)
  const begin = days[0]?.day ?? first
  const found = [first, first + 1].flatMap((day) => {
    const station = days[day - begin]?.max ?? null
    const value = station ?? heatAhead?.get(day) ?? null
    return value === null
      ? []
      : [{ day, value, by: station === null ? ('forecast' as const) : ('measured' as const) }]
  })
  const hottest = found.toSorted((a, b) => b.value - a.value)[0]
  return {
    highest: hottest?.value ?? null,
    date: hottest ? isoDate(hottest.day) : null,
    by: hottest?.by ?? null,
    complete: found.length === 2,
  }
}
