import { degreeDays } from '../../agronomy/heat/degree-days.ts'
import { runningSum } from '../../agronomy/weather/running-sum.ts'
import { daysIn, filledDays, growingKnown, growingSpan } from '../../facts/heat/window.ts'
import type { ReportInput } from '../../facts/report.ts'
import { hasWeather } from '../../facts/weather/by-hand.ts'
import { weatherDaysOf } from '../../facts/weather/in-short.ts'
import { addDays, dayOf, type IsoDate } from '../../records/date.ts'

/** A sum over the season's growing days; null where `why` says what is missing. */
interface WeatherSum {
  value: number | null
  why: string | null
  /** What the value leaves out or fills in; null where it is as measured. */
  remark: string | null
}

interface SeasonWeather {
  /** °C-days above 10, by the average method. */
  heat: WeatherSum
  /** mm */
  rain: WeatherSum
  /** Heat sum up to each day, as far as none is unknown. */
  heatUpTo: ReadonlyMap<IsoDate, number>
}

/** Largest share of days with unknown rain for which the rest is still summed. Our own choice. */
const MOST_UNKNOWN = 0.05

/**
 * Heat and rain of a season for comparison. Outages of the station of up to three days are filled in straight lines
 * in every season alike; rain can't be filled, and is at least so much where a few days are unknown.
 */
export function seasonWeather(input: ReportInput): SeasonWeather {
  const { ledger, season, asOf } = input
  if (!hasWeather(ledger, season)) {
    const none = { value: null, why: 'no weather file', remark: null }
    return { heat: none, rain: none, heatUpTo: new Map() }
  }
  const days = weatherDaysOf(ledger, season)
  const { from, to } = growingKnown(days, growingSpan(ledger.vineyard, season), asOf)
  const known = days.filter(({ day }) => day <= dayOf(asOf))
  const { filled, measured } = filledDays(known, { from, to })
  const count = (list: readonly unknown[]) => list.filter((day) => day === null).length
  const [open, gaps] = [count(filled), count(measured)]
  const values = filled.map((ends) => ends && degreeDays({ ...ends, base: 10, method: 'average' }))
  const first = values.indexOf(null)
  const sums = runningSum((first === -1 ? values : values.slice(0, first)).map((value) => value!))
  return {
    heat: {
      value: open === 0 ? (sums.at(-1) ?? null) : null,
      why:
        open === 0 ? (sums.length === 0 ? 'no days' : null) : `${open} of ${filled.length} days are unknown`,
      remark: open === 0 && gaps > 0 ? `${gaps} of ${filled.length} days filled in` : null,
    },
    rain: rainOf(daysIn(known, { from, to })),
    heatUpTo: new Map(sums.map((sum, index) => [addDays(from, index), sum])),
  }
}

function rainOf(days: readonly ({ rain: number | null } | null)[]): WeatherSum {
  const rains = days.flatMap((day) => day?.rain ?? [])
  const open = days.length - rains.length
  if (rains.length === 0 || open > days.length * MOST_UNKNOWN)
    return { value: null, why: `no rain known for ${open} of ${days.length} days`, remark: null }
  const value = rains.reduce((sum, rain) => sum + rain, 0)
  return {
    value,
    why: null,
    remark:
      open > 0
        ? `at least this much, as ${open} of ${days.length} days ${open === 1 ? 'is' : 'are'} missing`
        : null,
  }
}
