import { highest } from '../../agronomy/statistics/extremes.ts'
import { type EveryHour, everyHour, hourNumber } from '../../agronomy/weather/weather-hours.ts'
import { type PressureDay, pressureDays } from '../../facts/disease/days.ts'
import { downyAhead } from '../../facts/disease/downy-ahead.ts'
import { startsOf } from '../../facts/disease/starts.ts'
import type { Asked } from '../../facts/picking/gate.ts'
import { DAYS_AHEAD as DAYS, rainInWeek } from '../../facts/picking/rot.ts'
import { weatherOf } from '../../facts/weather/hours.ts'
import type { DayMeans } from '../../facts/window/temperatures.ts'
import { addDays, dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'

const RANK = { none: 0, low: 1, moderate: 2, high: 3 } as const

/** A forecast: hours where the file has them, else daily means, °C, and rain, mm, by day number. */
export interface Forecast {
  hours?: EveryHour | null
  means: DayMeans
  rain: ReadonlyMap<number, number>
}

/**
 * What the forecast says of the diseases that fruit and leaves can still catch in the week ahead; null where no forecast
 * was given. Botrytis and the powdery index go by hours, downy's primary infection by hours or, where the file has days
 * only, by rain and mean of two days. What can't be known is said.
 */
export function pressureAhead(asked: Asked, forecast: Forecast | undefined): string | null {
  if (!forecast) return null
  const until = spokenDate(addDays(asked.asOf, DAYS - 1))
  const parts = forecast.hours ? byHours(asked, forecast.hours) : byDays(asked, forecast)
  return `Disease forecast to ${until}: ${parts.join('; ')}.`
}

function byHours(asked: Asked, ahead: EveryHour): string[] {
  const { ledger, season, asOf, block } = asked
  const starts = startsOf({ ledger, season, asOf, blocks: [block] })
  const known = weatherOf(ledger, season).hours
  const limits = ledger.vineyard.downy
  const days = pressureDays(joined(known, ahead, dayOf(asOf)), {
    starts,
    variant: 'ten-ten-twentyfour',
    latitude: null,
    noonShift: () => 0,
    limits: { rain: limits?.rain, temperature: limits?.temperature },
  }).filter(({ date }) => date >= asOf && date <= addDays(asOf, DAYS - 1))
  return [botrytis(days), powdery(days), downy(days)]
}

/** The hours known up to a day and those forecast after them; an hour that both have, or the clock has twice, once. */
function joined(known: EveryHour, ahead: EveryHour, today: number): EveryHour {
  const numberOf = ({ day, hour }: EveryHour[number]) => hourNumber(day, hour)
  const first = ahead[0] ? numberOf(ahead[0]) : Number.POSITIVE_INFINITY
  const all = [...known.filter((hour) => hour.day <= today && numberOf(hour) < first), ...ahead]
  return everyHour(all.filter((hour, at) => at === 0 || numberOf(hour) > numberOf(all[at - 1]!)))
}

/** How many of the days are reported, where not all are. */
const told = (count: number): string => (count < DAYS ? ` (${count} of ${DAYS} days forecast)` : '')

function botrytis(days: readonly PressureDay[]): string {
  const rated = days.filter(({ botrytis }) => botrytis.risk !== null)
  const worst = rated.toSorted((a, b) => RANK[b.botrytis.risk!] - RANK[a.botrytis.risk!])[0]
  if (!worst) return 'botrytis unknown: the forecast does not show when the vines are wet'
  const { risk, wetHours, temperature } = worst.botrytis
  if (risk === 'none') return `botrytis none on any day${told(rated.length)}`
  const wet = `${wetHours} wet hours${temperature === null ? '' : ` at ${Math.round(temperature)} °C`}`
  return `botrytis ${risk} at worst, on ${spokenDate(worst.date)} after ${wet}${told(rated.length)}`
}

function powdery(days: readonly PressureDay[]): string {
  const known = days.flatMap(({ powdery }) => powdery.index ?? [])
  if (known.length === 0) return `powdery unknown: ${days[0]?.powdery.why ?? 'no hour is forecast'}`
  return `powdery index ${highest(known)} of 100 at most${told(known.length)}`
}

function downy(days: readonly PressureDay[]): string {
  const possible = days.filter(({ downy }) => downy.primary === true).map(({ date }) => date)
  const known = days.filter(({ downy }) => downy.primary !== null).length
  return `${downyText(possible, known)}${known === 0 ? '' : told(known)}`
}

function downyText(possible: readonly IsoDate[], known: number): string {
  if (known === 0) return 'downy unknown: rain or temperature is missing'
  if (possible.length === 0) return 'downy no primary infection'
  return `downy primary infection possible on ${possible.map(spokenDate).join(', ')}`
}

function byDays(asked: Asked, forecast: Forecast): string[] {
  const judged = downyAhead(asked, forecast, DAYS)
  const possible = judged.filter(({ primary }) => primary).map(({ date }) => date)
  const downy = downyText(possible, judged.length)
  return [
    judged.length === 0 ? downy : `${downy}, by rain and mean of two days${told(judged.length)}`,
    'botrytis and powdery unknown: they need hours, and this forecast has days only',
  ]
}

/** The days of the week ahead, by number. */
const weekFrom = (asOf: IsoDate) => Array.from({ length: DAYS }, (_, index) => dayOf(asOf) + index)

/** A day with more than this is called wet, mm. Our choice, no source. */
const WET = 5

/** mm of rain that the forecast names for the week ahead, and what it says of it; null where it names or says nothing. */
export function rainAhead(
  asOf: IsoDate,
  rain: ReadonlyMap<number, number> | undefined,
): { sum: number | null; text: string | null } {
  if (!rain) return { sum: null, text: null }
  const known = weekFrom(asOf).filter((day) => rain.has(day))
  const sum = rainInWeek(asOf, rain)
  if (sum === null)
    return {
      sum: null,
      text: `Rain unknown: the forecast names none for the ${DAYS} days from ${spokenDate(asOf)}, wet or dry.`,
    }
  const wet = known.find((day) => rain.get(day)! > WET)
  const first = wet === undefined ? 'no wet day' : `first wet day ${spokenDate(isoDate(wet))}`
  const text = `Rain forecast to ${spokenDate(addDays(asOf, DAYS - 1))}: ${Math.round(sum)} mm${told(known.length)}, ${first}. Rain dilutes, splits berries and brings rot; ripe fruit gets more botrytis.`
  return { sum, text }
}
