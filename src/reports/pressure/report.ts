import type { DownyPrimaryVariant } from '../../agronomy/disease/downy-primary-rules.ts'
import { hemisphereOf } from '../../agronomy/heat/season-window.ts'
import { winklerSeason } from '../../agronomy/heat/winkler.ts'
import type { EveryHour } from '../../agronomy/weather/weather-hours.ts'
import { wetHours } from '../../agronomy/weather/wet-hours.ts'
import { ESTIMATE_CAUTIONS } from '../../facts/cautions.ts'
import { type PressureDay, type PressureSite, pressureDays } from '../../facts/disease/days.ts'
import { type PressureRule, pressureRules, type WetnessSeen } from '../../facts/disease/rules.ts'
import { startsOf, startsOfFile } from '../../facts/disease/starts.ts'
import { windowOf } from '../../facts/heat/window.ts'
import { makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { type Weather, weatherOf } from '../../facts/weather/hours.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { offsetAt } from '../../records/zone.ts'
import { type PressureCharts, pressureCharts } from './charts.ts'
import { type Incubation, incubations } from './downy-incubations.ts'
import { type Oospores, oosporesOn } from './downy-oospores.ts'
import { type WorstFortnight, worstFortnight } from './worst-fortnight.ts'

export interface PressureOptions {
  /** Rule of downy mildew's primary infection. */
  variant?: DownyPrimaryVariant | undefined
  /** Its limits in place of the rule's own. */
  limits?: PressureSite['limits']
  from?: IsoDate | undefined
  to?: IsoDate | undefined
}

export interface PressureData {
  from: IsoDate
  to: IsoDate
  days: PressureDay[]
  incubations: Incubation[]
  /** Ripeness of downy mildew's spores after the last day. */
  oospores: Oospores
  /** Null where no day let anything infect, or there are fewer days than that. */
  worstFortnight: WorstFortnight | null
  rules: PressureRule[]
  /** What the hours were judged wet by. */
  wetness: WetnessSeen
  /** Why there are no days, or no values; null where there are. */
  why: string | null
  charts: PressureCharts
}

/** Disease pressure of the season day by day, up to the day asked for. */
export function pressure(input: ReportInput, options: PressureOptions = {}): Report<PressureData> {
  const { ledger, season, asOf } = input
  const { vineyard } = ledger
  const weather = weatherOf(ledger, season)
  const hemisphere = hemisphereOf(vineyard.latitude)
  const growing = windowOf(winklerSeason[hemisphere], { season, hemisphere })
  const from = options.from ?? growing.from
  const wanted = options.to ?? growing.to
  const to = wanted < asOf ? wanted : asOf
  const site: PressureSite = {
    starts: startsOf(input),
    variant: options.variant ?? 'ten-ten-twentyfour',
    limits: {
      rain: options.limits?.rain ?? vineyard.downy?.rain,
      temperature: options.limits?.temperature ?? vineyard.downy?.temperature,
    },
    latitude: vineyard.latitude,
    noonShift: noonShift(vineyard),
  }
  const data = pressureData(weather, { site, from, to })
  return makeReport(
    'pressure',
    { asOf, season },
    { data, findings: weather.station.findings, cautions: ESTIMATE_CAUTIONS },
  )
}

/** Disease pressure from a weather file alone: all its days, unless a span is asked for. */
export function pressureOfFile(
  weather: Weather,
  options: PressureOptions & { asOf: IsoDate; latitude?: number | undefined; budbreak?: IsoDate | undefined },
): Report<PressureData> {
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
  const data = pressureData(weather, { site, from, to })
  const season = seasonOf({ latitude: latitude ?? 45 }, to)
  return makeReport(
    'pressure',
    { asOf, season },
    { data, findings: weather.station.findings, cautions: ESTIMATE_CAUTIONS },
  )
}

function pressureData(
  weather: Weather,
  { site, from, to }: { site: PressureSite; from: IsoDate; to: IsoDate },
): PressureData {
  const began = Math.min(dayOf(from), site.starts.budbreak ?? Infinity) - LEAD_DAYS
  const hours = hoursUpTo(weather.hoursFrom(began), dayOf(to))
  const all = weather.station.form === 'hourly' ? pressureDays(hours, site) : withoutHours(weather)
  const days = all.filter(({ date }) => date >= from && date <= to)
  const wetness = wetnessSeen(hours)
  return {
    from,
    to: days.at(-1)?.date ?? to,
    days,
    incubations: incubations(days, hours),
    oospores: oosporesOn(weather.days, { latitude: site.latitude, to: days.at(-1)?.date ?? to }),
    worstFortnight: worstFortnight(days, weather.days),
    rules: pressureRules({ starts: site.starts, variant: site.variant, limits: site.limits, proxy: wetness }),
    wetness,
    why: whyNothing(weather, days.length),
    charts: pressureCharts(days),
  }
}

/** Days read before the first that is asked for, so that wet spells and sums of rain that reach into it are whole. */
const LEAD_DAYS = 28

function whyNothing(weather: Weather, days: number): string | null {
  if (weather.station.file === null) return 'the season has no weather.csv'
  if (weather.station.form === 'daily') return 'the file has one row a day, and the indices need hours'
  return days === 0 ? 'no hour of weather is in this span' : null
}

/** The hours up to the end of a day. */
export function hoursUpTo(hours: EveryHour, day: number): EveryHour {
  if ((hours.at(-1)?.day ?? day) <= day) return hours
  return hours.filter((hour) => hour.day <= day) as unknown as EveryHour
}

function withoutHours({ days }: Weather): PressureDay[] {
  const why = 'the indices need hours'
  const unknown = { complete: false, wetHours: null, why }
  return days.map(({ day }) => ({
    date: isoDate(day),
    powdery: {
      index: null,
      points: null,
      hoursInRange: null,
      low: null,
      high: null,
      phase: null,
      ascospores: null,
      why,
    },
    downy: { primary: null, why, secondary: null, secondaryWhy: why },
    botrytis: { index: null, risk: null, temperature: null, beyond: null, ...unknown },
    blackRot: { infection: null, neededHours: null, ...unknown },
  }))
}

function wetnessSeen(hours: EveryHour): WetnessSeen {
  const { basis } = wetHours(hours)
  const measured = basis.includes('wetness')
  const proxy = basis.includes('rain or humidity')
  if (measured && proxy) return 'both'
  return measured ? 'wetness' : proxy ? 'proxy' : 'unknown'
}

/** How far the vineyard's clock is ahead of mean solar time on a day, in hours. */
function noonShift({ timezone, longitude }: { timezone: string; longitude?: number | undefined }) {
  const ahead = new Map<number, number>()
  const offset = (day: number) => {
    const known = ahead.get(day) ?? offsetAt(day * 86_400_000, timezone)
    ahead.set(day, known)
    return known
  }
  // Where no longitude is written, that of the zone's standard time stands in.
  const standard = Math.min(offset(WINTER_DAY), offset(SUMMER_DAY))
  return (day: number) => offset(day) / 60 - (longitude === undefined ? standard / 60 : longitude / 15)
}

const WINTER_DAY = dayOf('2026-01-01')
const SUMMER_DAY = dayOf('2026-07-01')
