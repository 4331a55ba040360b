import { type DegreeDayMethod, degreeDays, sumDegreeDays } from '../../agronomy/heat/degree-days.ts'
import { highest } from '../../agronomy/statistics/extremes.ts'
import { runningSum } from '../../agronomy/weather/running-sum.ts'
import type { DayChart } from '../../facts/charts/day-chart.ts'
import {
  type DateSpan,
  daysIn,
  daysUpTo,
  type Ends,
  extremes,
  growingSpan,
  lastKnown,
} from '../../facts/heat/window.ts'
import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { hasWeather } from '../../facts/weather/by-hand.ts'
import { type DailyWeather, type Weather, weatherOf } from '../../facts/weather/hours.ts'
import { weatherDaysOf } from '../../facts/weather/in-short.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import { addDays, type IsoDate, isoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { type HeatBeside, heatBeside } from './beside.ts'
import { heatIndices } from './indices.ts'
import { fromHours, type StageHeat, stageHeat } from './stages.ts'

interface HeatOptions {
  method?: DegreeDayMethod | undefined
  /** °C. */
  base?: number | undefined
  upper?: number | undefined
  from?: IsoDate | undefined
  to?: IsoDate | undefined
}

export type HeatData = ReturnType<typeof heatData> & { beside: HeatBeside | null; stages: StageHeat[] }

/** Heat of a season: degree days from the start of the growing season up to the requested day. */
export function heat(input: ReportInput, options: HeatOptions = {}): Report<HeatData> {
  const { ledger, season, asOf } = input
  const { latitude } = ledger.vineyard
  const weather = weatherOf(ledger, season)
  const growing = growingSpan({ latitude }, season)
  const from = options.from ?? growing.from
  const end = earlier(options.to ?? growing.to, asOf)
  const to = options.to === undefined ? earlier(end, lastKnown(daysUpTo(weather.days, end)) ?? end) : end
  const span = { from, to: to < from ? from : to }
  const days = daysUpTo(weather.days, asOf)
  const own = heatData({ weather, days, latitude, season, span, options })
  const others = ledger.seasons.filter((one) => one < season && hasWeather(ledger, one))
  const beside = heatBeside({
    earlier: others.map((one) => ({ season: one, days: weatherDaysOf(ledger, one) })),
    days,
    span,
    season,
    count: (ends) => countDays(ends, options),
  })
  const stages = stageHeat({ ...input, asOf: end }, (since) =>
    sumDegreeDays(countDays(daysIn(days, { from: addDays(since, 1), to }).map(extremes), options)),
  )
  const ends = to < addDays(end, -1) ? `the weather ends on ${spokenDate(to)}` : null
  const why = [own.why, ends].filter(Boolean).join(', and ') || null
  const data = { ...own, why, beside, stages }
  if (beside) data.charts.sum.beside = { name: 'earlier seasons', ...beside.course }
  return reportOf(weather, { asOf, season }, data)
}

const reportOf = (weather: Weather, when: { asOf: IsoDate; season: number }, data: HeatData) =>
  makeReport('heat', when, { data, findings: weather.station.findings, cautions: [CAUTION.estimate] })

/** The season whose growing months a file holds last: one that ends in November has its own summer behind it. */
function seasonGrown(latitude: number, last: IsoDate): number {
  const season = seasonOf({ latitude }, last)
  return growingSpan({ latitude }, season).from > last ? season - 1 : season
}

/** Heat from a weather file alone: the whole file, unless a span is asked for. */
export function heatOfFile(
  weather: Weather,
  options: HeatOptions & { latitude: number; asOf: IsoDate },
): Report<HeatData> {
  const { latitude, asOf } = options
  const first = weather.days[0]
  const last = weather.days.at(-1)
  const from = options.from ?? (first ? isoDate(first.day) : asOf)
  const to = options.to ?? (last ? isoDate(last.day) : from)
  const span = { from, to: to < from ? from : to }
  const season = seasonGrown(latitude, span.to)
  const own = heatData({ weather, days: weather.days, latitude, season, span, options })
  return reportOf(weather, { asOf, season }, { ...own, beside: null, stages: [] })
}

function heatData(from: {
  weather: Weather
  /** Its days, as far as they count. */
  days: readonly DailyWeather[]
  latitude: number
  season: number
  span: DateSpan
  options: HeatOptions
}) {
  const { weather, latitude, season, span, options } = from
  const { method = 'average', base = 10, upper } = options
  const slots = daysIn(from.days, span)
  const values = countDays(slots.map(extremes), options)
  const { sum, missing } = sumDegreeDays(values)
  const days = slots.map((day, at) => ({
    date: addDays(span.from, at),
    /** °C; null where unknown. `mean` is that of the hours where there are hours, else (min + max) / 2. */
    min: day?.min ?? null,
    max: day?.max ?? null,
    mean: day?.mean ?? null,
    degreeDays: values[at]!,
    /** False where hours are missing, so that the ends may have been wider. */
    complete: day?.complete ?? false,
    ...(day?.byHand ? { byHand: true as const } : {}),
  }))
  const why =
    missing === 0
      ? null
      : sum === null
        ? 'no day has temperatures'
        : `${missing} of ${days.length} days ${missing === 1 ? 'is' : 'are'} unknown`
  return {
    method,
    base,
    upper: upper ?? null,
    ...span,
    days,
    /** °C-days of the known days; null where none is known. */
    sum,
    missing,
    /** What the sum lacks. */
    why,
    /** Days of a station of which something was read by hand; null where there is no station. */
    byHand: weather.station.form === null ? null : days.filter((day) => day.byHand).length,
    ...heatIndices(from.days, { season, latitude }),
    fromHours: fromHours(weather, { span, base }),
    charts: heatCharts(values, { from: span.from, base }),
  }
}

function countDays(days: Ends, options: HeatOptions): (number | null)[] {
  const { method = 'average', base = 10, upper } = options
  return days.map(
    (ends) => ends && degreeDays({ ...ends, base, method, ...(upper === undefined ? {} : { upper }) }),
  )
}

const earlier = (one: IsoDate, other: IsoDate) => (one < other ? one : other)

/** Degree days of each day, and summed up, from the day named. */
function heatCharts(
  values: readonly (number | null)[],
  { from, base }: { from: IsoDate; base: number },
): { daily: DayChart; sum: DayChart } {
  const known = values.filter((value) => value !== null)
  const sums = runningSum(values.map((value) => value ?? 0))
  const frame = (of: string, high: number) => ({
    title: `Heat above ${base} °C, ${of}`,
    unit: '°C-days',
    from,
    low: 0,
    high: Math.max(1, high),
  })
  return {
    daily: { ...frame('each day', highest(known)), values: [...values], combine: 'mean' },
    sum: {
      ...frame('total', sums.at(-1) ?? 0),
      // Where no day is known the sum isn't 0 but unknown.
      values: known.length === 0 ? [...values] : sums,
      combine: 'greatest',
    },
  }
}
