import { botrytisDays } from '../../agronomy/botrytis.ts'
import type { EveryHour } from '../../agronomy/weather-hours.ts'
import { addDays, dayOf, type IsoDate, isoDate, spokenDate } from '../../records/date.ts'

/** Days ahead that bear on a pick. */
const DAYS = 7

const RANK = { none: 0, low: 1, moderate: 2, high: 3 } as const

/**
 * What the forecast says of botrytis, the disease that fruit can still catch before picking, in the week ahead; null
 * where no forecast was given. The model goes by wet hours, so that a file of days can't tell it, which is said.
 *
 * @param forecast hours foretold, null where the file has days only; undefined without a forecast
 */
export function pressureAhead(
  asOf: IsoDate,
  forecast: { hours: EveryHour | null } | undefined,
): string | null {
  if (!forecast) return null
  if (forecast.hours === null)
    return 'Disease pressure ahead is not told: botrytis goes by hours of wetness, and this forecast has days only; a file of hours with temperature, humidity and rain would tell it.'
  const from = dayOf(asOf)
  const days = botrytisDays(forecast.hours).filter(({ day }) => day >= from && day < from + DAYS)
  const rated = days.filter(({ risk }) => risk !== null)
  const until = spokenDate(addDays(asOf, DAYS - 1))
  if (rated.length === 0)
    return `Botrytis to ${until} is not told: the hours foretold do not show when the vines are wet.`
  const worst = rated.toSorted((a, b) => RANK[b.risk!] - RANK[a.risk!])[0]!
  const gap = rated.length < DAYS ? ` (${rated.length} of ${DAYS} days told)` : ''
  if (worst.risk === 'none') return `Botrytis foretold to ${until}: none on any day${gap}.`
  const wet = `${worst.wetHours} wet hours${worst.temperature === null ? '' : ` at ${Math.round(worst.temperature)} °C`}`
  return `Botrytis foretold to ${until}: ${worst.risk} at worst, on ${spokenDate(isoDate(worst.day))} after ${wet}${gap}.`
}
