import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { dayOf, isoDate } from '../../records/date.ts'
import type { JudgedLedger } from '../judged.ts'
import { weatherInShort } from './in-short.ts'

/**
 * 85 °F in °C: at or above this on the day of spraying or the next, sulphur may burn (University of Georgia 2017,
 * read).
 */
export const HOT_DAY = (85 - 32) / 1.8
/** °C from which it is a warning rather than a hint. Common practice, no source. */
export const VERY_HOT_DAY = 35

/** How hot it was, or will be, on the hotter of the day of a spray and the next: by the station, else by a forecast. */
export function heatAround({ ledger, heatAhead }: JudgedLedger, spray: Pick<SprayEntry, 'date' | 'season'>) {
  const first = dayOf(spray.date)
  const { days } = weatherInShort(ledger, spray.season)
  const begin = days[0]?.day ?? first
  const found = [first, first + 1].flatMap((day) => {
    const station = days[day - begin]?.max ?? null
    const highest = station ?? heatAhead?.get(day) ?? null
    const by = station === null ? ('forecast' as const) : ('measured' as const)
    return highest === null ? [] : [{ highest, date: isoDate(day), by }]
  })
  const hottest = found.toSorted((a, b) => b.highest - a.highest)[0]
  return {
    /** °C; null where neither day is known. */
    ...(hottest ?? { highest: null, date: null, by: null }),
    /** Whether the next day is known too. */
    complete: found.length === 2,
  }
}
