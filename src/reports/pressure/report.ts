import type { DownyPrimaryVariant } from '../../agronomy/disease/downy-primary-rules.ts'
import type { EveryHour } from '../../agronomy/weather/weather-hours.ts'
import { wetHours } from '../../agronomy/weather/wet-hours.ts'
import { type BlockDanger, dangerJudge, plainDanger } from '../../facts/danger/danger.ts'
import { pressureCharts } from '../../facts/disease/charts.ts'
import { type PressureCourse, pressureCourse, vineyardSite } from '../../facts/disease/course.ts'
import { ruleForDays } from '../../facts/disease/daily-days.ts'
import type { PressureSite } from '../../facts/disease/days.ts'
import { oosporesOn } from '../../facts/disease/downy-oospores.ts'
import { pressureRules, type WetnessSeen } from '../../facts/disease/rules.ts'
import { startsOfFile } from '../../facts/disease/starts.ts'
import { growingSpan } from '../../facts/heat/window.ts'
import { CAUTION, makeReport, type ReportInput } from '../../facts/report.ts'
import { besideStation } from '../../facts/weather/by-hand.ts'
import { type Weather, weatherOf } from '../../facts/weather/hours.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { worstFortnight } from './worst-fortnight.ts'

interface PressureOptions {
  /** Rule of downy mildew's primary infection. */
  variant?: DownyPrimaryVariant | undefined
  /** Its limits instead of the rule's own. */
  limits?: PressureSite['limits']
  from?: IsoDate | undefined
  to?: IsoDate | undefined
}

export type PressureData = ReturnType<typeof pressureData>

/** Disease pressure of the season day by day, up to the requested day. */
export function pressure(input: ReportInput, options: PressureOptions = {}) {
  const { ledger, season, asOf } = input
  const weather = weatherOf(ledger, season)
  const growing = growingSpan(ledger.vineyard, season)
  const from = options.from ?? growing.from
  const wanted = options.to ?? growing.to
  const to = wanted < asOf ? wanted : asOf
  const site = vineyardSite(input, options)
  const course = pressureCourse(weather, { site, from, to })
  // What was asked for is then what danger is judged by.
  const { limits = {}, ...others } = options
  const isUsual = [...Object.values(others), ...Object.values(limits)].every((one) => one === undefined)
  const isWhole = isUsual && input.blocks.length === ledger.blocks.size
  const judge = dangerJudge(input, isWhole ? course : undefined)
  const danger = judge.diseases.flatMap((disease) =>
    input.blocks.map(({ id }) => ({ block: id, disease, danger: plainDanger(judge.on(id, disease, to)) })),
  )
  return reportOf(weather, { asOf, season }, { ...pressureData(weather, course, site), danger })
}

/** Disease pressure from a weather file alone: all its days, unless a span is asked for. */
export function pressureOfFile(
  weather: Weather,
  options: PressureOptions & { asOf: IsoDate; latitude?: number | undefined; budbreak?: IsoDate | undefined },
) {
  const { asOf, latitude, budbreak } = options
  const from = options.from ?? isoDate(weather.days[0]?.day ?? dayOf(asOf))
  const to = options.to ?? isoDate(weather.days.at(-1)?.day ?? dayOf(asOf))
  const site: PressureSite = {
    starts: startsOfFile(budbreak),
    variant: options.variant ?? 'ten-ten-twentyfour',
    limits: options.limits,
    latitude: latitude ?? null,
    noonShift: () => 0,
  }
  const data = pressureData(weather, pressureCourse(weather, { site, from, to }), site)
  return reportOf(weather, { asOf, season: seasonOf({ latitude: latitude ?? 45 }, to) }, data)
}

const reportOf = (weather: Weather, of: { asOf: IsoDate; season: number }, data: PressureData) =>
  makeReport('pressure', of, { data, findings: weather.station.findings, cautions: [CAUTION.estimate] })

function pressureData(weather: Weather, { hours, ...course }: PressureCourse, site: PressureSite) {
  const { days } = course
  const wetness = wetnessSeen(hours)
  const byHours = weather.form === 'hourly'
  const byHand = besideStation(weather, course)
  return {
    from: course.from,
    to: course.to,
    days,
    incubations: course.incubations,
    /** Ripeness of downy mildew's spores after the last day. */
    oospores: oosporesOn(weather.days, { latitude: site.latitude, to: course.to }),
    /** Null where no day let anything infect, or there are fewer days than that. */
    worstFortnight: worstFortnight(days, weather.days),
    rules: pressureRules({
      starts: site.starts,
      variant: byHours ? site.variant : null,
      byDays: byHours && !byHand?.length ? null : ruleForDays(site.variant),
      limits: site.limits,
      proxy: wetness,
    }),
    /** What the hours were judged wet by. */
    wetness,
    /** Days of which something was read by hand, beside a station; null where there is no station. */
    byHand,
    /** Why there are no days, or no values; null where there are. */
    why: course.why,
    charts: pressureCharts(days),
    /** The judgement of danger after the last day, by disease and block; empty without a ledger. */
    danger: [] as BlockDanger[],
  }
}

function wetnessSeen(hours: EveryHour): WetnessSeen {
  const { basis } = wetHours(hours)
  const measured = basis.includes('wetness')
  const proxy = basis.includes('rain or humidity')
  if (measured && proxy) return 'both'
  return measured ? 'wetness' : proxy ? 'proxy' : 'unknown'
}
