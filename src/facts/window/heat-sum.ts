import { heatStage } from '../../agronomy/heat/heat-stage.ts'
import { projectHeatSum } from '../../agronomy/heat/project-heat-sum.ts'
import { normalQuantile } from '../../agronomy/statistics/normal.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { dayOf, isoDate } from '../../records/date.ts'
import { futureYears, heatSumOf } from './heat-ahead.ts'
import { type MethodDays, type Question, unable } from './method.ts'
import { requirementsOf } from './requirement.ts'
import { daysFrom, type Temperatures } from './temperatures.ts'

const METHOD = 'heat-sum'
const NORMAL_90 = normalQuantile(0.95)

/** The method's answer, with the sum so far and the one that the target needs, °C-days, where they are known. */
export interface HeatAnswer extends MethodDays {
  sum: number | null
  needed: number | null
}

/**
 * When the season's heat sum above 0 °C reaches what a target needs. Summed once; the function that is returned answers
 * for one target after another.
 */
export function heatSum(
  ledger: Ledger,
  question: Omit<Question, 'target'>,
  temperatures: Temperatures,
): (target: number) => HeatAnswer {
  const { known, start } = temperatures
  const none = (why: string) => () => ({ ...unable(METHOD, why), sum: null, needed: null })
  if (known.size === 0)
    return none(`there is no weather of season ${question.season} (seasons/${question.season}/weather.csv)`)
  const asked = dayOf(question.asOf)
  const last = Math.min(asked, Math.max(...known.keys()))
  const begun = isoDate(start)
  if (last < start) return none(`the sum starts on ${begun}, and no weather is known since`)
  const sum = heatSumOf(known, start, last)
  if (!sum) return none(`too many days since ${begun} are without weather`)
  const requirements = requirementsOf(ledger, { question, temperatures, pace: paceOf(temperatures, last) })
  const soFar = { means: daysFrom(known, start, last), years: futureYears(temperatures, last) }
  const source = `; days to come from ${sourceAhead(temperatures, last)}`
  const stale = last < asked - 1 ? `; weather known to ${isoDate(last)} only` : ''
  const filled = sum.filled === 0 ? '' : `, ${sum.filled} unknown days filled from those around`
  return (target) => {
    const need = requirements(target)
    if ('missing' in need) return { ...unable(METHOD, need.missing), sum: sum.sum, needed: null }
    const sums = { sum: sum.sum, needed: need.sum }
    const base = `${Math.round(sum.sum)} of ${need.source}, base 0 °C since ${begun}${filled}`
    const already = heatStage({ startDay: start, means: soFar.means, requirement: need.sum })
    if (already.day !== null) {
      const half = NORMAL_90 * need.errorDays
      const days = {
        earliest: Math.floor(already.day - half),
        likely: already.day,
        latest: Math.ceil(already.day + half),
      }
      return { method: METHOD, ...days, ...sums, why: `${base}; reached on ${isoDate(already.day)}` }
    }
    const ahead = projectHeatSum({
      ...{ sumToday: sum.sum, requirement: need.sum },
      ...{ futureYears: soFar.years, modelError: need.errorDays },
    })
    const told = soFar.years.length === 0 ? '' : source
    const why = `${base}${told}${stale}${ahead.reason ? `; ${ahead.reason}` : ''}`
    if (ahead.likely === null) return { ...unable(METHOD, why), ...sums }
    const ends =
      ahead.earliest === null || ahead.latest === null
        ? { earliest: null, latest: null }
        : { earliest: last + ahead.earliest, latest: last + ahead.latest }
    return { method: METHOD, likely: last + ahead.likely, ...ends, ...sums, why }
  }
}

/** Where the temperatures of the days to come are taken from, in words. */
function sourceAhead({ past, forecast }: Temperatures, last: number): string {
  const seasons = past
    .filter(({ means }) => means.size > 0)
    .map(({ season }) => season)
    .sort()
  const told = [...forecast.keys()].filter((day) => day > last).length
  const foretold = told === 0 ? '' : `the forecast for ${told} days, then `
  return `${foretold}${seasons.join(' and ')} by calendar day`
}

/** °C-days a day over the last two weeks known, to turn sums into days; never less than 5. */
function paceOf({ known }: Temperatures, last: number): number {
  const days = daysFrom(known, last - 13, last).filter((mean) => mean !== null)
  return Math.max(5, days.reduce((sum, mean) => sum + mean, 0) / Math.max(1, days.length))
}
