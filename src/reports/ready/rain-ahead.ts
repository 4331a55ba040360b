import { addDays, dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'

/** Days ahead that bear on a pick. */
const DAYS = 7
/** A day with more than this is called wet, mm. Our choice, no source. */
const WET = 5

/** mm that the forecast names for the week ahead; null where it says nothing of rain. */
export function rainSum(asOf: IsoDate, rain: ReadonlyMap<number, number> | undefined): number | null {
  const days = Array.from({ length: DAYS }, (_, index) => rain?.get(dayOf(asOf) + index))
  const known = days.filter((one) => one !== undefined)
  return known.length === 0 ? null : known.reduce((sum, one) => sum + one, 0)
}

/** What the forecast says of rain in the week ahead, in a sentence; null where none was given. */
export function rainAhead(asOf: IsoDate, rain: ReadonlyMap<number, number> | undefined): string | null {
  if (!rain) return null
  const days = Array.from({ length: DAYS }, (_, index) => dayOf(asOf) + index)
  const known = days.filter((day) => rain.has(day))
  if (known.length === 0)
    return `Rain unknown: the forecast names none for the ${DAYS} days from ${spokenDate(asOf)}, wet or dry.`
  const total = known.reduce((sum, day) => sum + rain.get(day)!, 0)
  const wet = known.find((day) => rain.get(day)! > WET)
  const gap = known.length < DAYS ? ` (${known.length} of ${DAYS} days forecast)` : ''
  const first = wet === undefined ? 'no wet day' : `first wet day ${spokenDate(isoDate(wet))}`
  return `Rain forecast to ${spokenDate(addDays(asOf, DAYS - 1))}: ${Math.round(total)} mm${gap}, ${first}. Rain dilutes, splits berries and brings rot; ripe fruit gets more botrytis.`
}
