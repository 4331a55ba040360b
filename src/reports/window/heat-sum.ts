import { heatStage } from '../../agronomy/heat-stage.ts'
import { normalQuantile } from '../../agronomy/normal.ts'
import { projectHeatSum } from '../../agronomy/project-heat-sum.ts'
import type { Ledger } from '../../ledger/ledger.ts'
import { dayOf, isoDate } from '../../records/date.ts'
import { futureYears, heatSumOf } from './heat-ahead.ts'
import { type MethodDays, type Question, unable } from './method.ts'
import { requirementOf } from './requirement.ts'
import { daysFrom, type Temperatures } from './temperatures.ts'

const METHOD = 'heat-sum'
const NORMAL_90 = normalQuantile(0.95)

/** When the season's heat sum above 0 °C reaches what the target needs. */
export function heatSum(ledger: Ledger, question: Question, temperatures: Temperatures): MethodDays {
  const { known, start, past, forecast } = temperatures
  if (known.size === 0)
    return unable(
      METHOD,
      `there is no weather of season ${question.season} (seasons/${question.season}/weather.csv)`,
    )
  const asked = dayOf(question.asOf)
  const last = Math.min(asked, Math.max(...known.keys()))
  const begun = isoDate(start)
  if (last < start) return unable(METHOD, `the sum starts on ${begun}, and no weather is known since`)
  const sum = heatSumOf(known, start, last)
  if (!sum) return unable(METHOD, `too many days since ${begun} are without weather`)
  const pace = paceOf(temperatures, last)
  const need = requirementOf(ledger, { question, temperatures, pace })
  if ('missing' in need) return unable(METHOD, need.missing)
  const already = heatStage({ startDay: start, means: daysFrom(known, start, last), requirement: need.sum })
  const filled = sum.filled === 0 ? '' : `, ${sum.filled} unknown days filled from those around`
  const base = `${Math.round(sum.sum)} of ${need.source}, base 0 °C since ${begun}${filled}`
  if (already.day !== null) {
    const half = NORMAL_90 * need.errorDays
    const days = {
      earliest: Math.floor(already.day - half),
      likely: already.day,
      latest: Math.ceil(already.day + half),
    }
    return { method: METHOD, ...days, why: `${base}; reached on ${isoDate(already.day)}` }
  }
  const years = futureYears(temperatures, last)
  const ahead = projectHeatSum({
    sumToday: sum.sum,
    requirement: need.sum,
    futureYears: years,
    modelError: need.errorDays,
  })
  const seasons = past
    .filter(({ means }) => means.size > 0)
    .map(({ season }) => season)
    .sort()
  const told = [...forecast.keys()].filter((day) => day > last).length
  const foretold = told === 0 ? '' : `the forecast for ${told} days, then `
  const source =
    seasons.length === 0 ? '' : `; days to come from ${foretold}${seasons.join(' and ')} by calendar day`
  const stale = last < asked - 1 ? `; weather known to ${isoDate(last)} only` : ''
  const why = `${base}${source}${stale}${ahead.reason ? `; ${ahead.reason}` : ''}`
  const at = (days: number | null) => (days === null ? null : last + days)
  const ends =
    ahead.earliest === null || ahead.latest === null
      ? { earliest: null, latest: null }
      : { earliest: at(ahead.earliest), latest: at(ahead.latest) }
  if (ahead.likely === null) return unable(METHOD, why)
  return { method: METHOD, likely: at(ahead.likely), ...ends, why }
}

/** °C-days a day over the last two weeks known, to turn sums into days; never less than 5. */
function paceOf({ known }: Temperatures, last: number): number {
  const days = daysFrom(known, last - 13, last).filter((mean) => mean !== null)
  return Math.max(5, days.reduce((sum, mean) => sum + mean, 0) / Math.max(1, days.length))
}
