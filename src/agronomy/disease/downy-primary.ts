import { daysOfHours, type EveryHour } from '../weather/weather-hours.ts'
import { type WeatherSums, weatherSums } from '../weather/weather-sums.ts'
import type { DownyPrimaryRule } from './downy-primary-rules.ts'

interface DownyPrimaryDay {
  day: number
  /** Null where missing hours leave it open. */
  primary: boolean | null
  why: string
}

/**
 * Whether downy mildew's primary infection was possible, day by day: enough rain (overhead irrigation counts as
 * rain) while it was warm enough. Hours before the series are unknown. Rules over-warn: not every such event infects
 * (DPIRD Western Australia 2021, read).
 */
export function downyPrimary(hours: EveryHour, rule: DownyPrimaryRule): DownyPrimaryDay[] {
  const sums = weatherSums(
    hours,
    (temperature) => !reaches(temperature, rule.temperature, rule.temperatureAbove),
  )
  const days = daysOfHours(hours)
  return days.map(({ day, first, last }, at) => {
    if (rule.window === 'calendar') {
      const from = days[at + 1 - rule.days]?.first ?? first - 24 * (rule.days - 1)
      return { day, ...explain(judge(sums.all(from, last), rule), rule) }
    }
    const length = rule.days * 24
    const wide = sums.all(first + 1 - length, last)
    if (wide.rainMissing === 0 && !reaches(wide.rain, rule.rain, rule.rainAbove)) {
      // No window in it can be wet enough, as on most days; only the wettest is named.
      let rain = 0
      for (let end = first; end <= last; end++) rain = Math.max(rain, sums.rain(end + 1 - length, end))
      return { day, ...explain({ state: 'too dry', sums: { ...wide, rain } }, rule) }
    }
    let telling: Judged | null = null
    for (let end = last; end >= first && telling?.state !== 'infection'; end--) {
      const rain = sums.rain(end + 1 - length, end)
      const isDry = wide.rainMissing === 0 && !reaches(rain, rule.rain, rule.rainAbove)
      if (isDry && telling && (telling.state !== 'too dry' || telling.sums.rain >= rain)) continue
      const window = judge(sums.all(end + 1 - length, end), rule)
      if (!telling || tellsMore(window, telling)) telling = window
    }
    return { day, ...explain(telling!, rule) }
  })
}

/** From most to least decisive for the day of a window. */
const STATES = ['infection', 'open', 'too cold', 'too cold, rain missing', 'too dry'] as const

interface Judged {
  state: (typeof STATES)[number]
  sums: WeatherSums
}

const reaches = (value: number, limit: number, above: boolean) =>
  above ? value > limit + 1e-9 : value >= limit - 1e-9

function tellsMore(one: Judged, other: Judged): boolean {
  const lead = STATES.indexOf(other.state) - STATES.indexOf(one.state)
  return lead > 0 || (lead === 0 && one.sums.rain > other.sums.rain)
}

function judge(sums: WeatherSums, rule: DownyPrimaryRule): Judged {
  const wet = reaches(sums.rain, rule.rain, rule.rainAbove)
  if (!wet && sums.rainMissing === 0) return { state: 'too dry', sums }
  const warm = warmEnough(sums, rule)
  if (warm === false) return { state: wet ? 'too cold' : 'too cold, rain missing', sums }
  return { state: wet && warm ? 'infection' : 'open', sums }
}

function warmEnough(sums: WeatherSums, rule: DownyPrimaryRule): boolean | null {
  if (rule.temperatureAs === 'minimum' && sums.colderHours > 0) return false
  if (sums.temperatureMissing > 0) return null
  return (
    rule.temperatureAs === 'minimum' || reaches(sums.temperature!, rule.temperature, rule.temperatureAbove)
  )
}

function explain({ state, sums }: Judged, rule: DownyPrimaryRule): Omit<DownyPrimaryDay, 'day'> {
  const span = `${rule.days * 24} h`
  const byMinimum = rule.temperatureAs === 'minimum'
  const mean = `mean ${sums.temperature?.toFixed(1)} °C`
  const warmth = byMinimum ? `no hour below ${rule.temperature} °C` : mean
  const cold = byMinimum ? `an hour below ${rule.temperature} °C` : `${mean}, ${rule.temperature} °C needed`
  if (state === 'infection')
    return { primary: true, why: `${sums.rain.toFixed(1)} mm within ${span}, ${warmth}` }
  if (state === 'open') {
    const byRain = sums.rainMissing > 0 && !reaches(sums.rain, rule.rain, rule.rainAbove)
    const what = byRain ? `rain of ${sums.rainMissing} h` : `temperature of ${sums.temperatureMissing} h`
    return { primary: null, why: `${what} in ${span} is missing` }
  }
  if (state === 'too cold') return { primary: false, why: `enough rain in ${span}, but ${cold}` }
  if (state === 'too dry')
    return {
      primary: false,
      why: `at most ${sums.rain.toFixed(1)} mm within ${span}, ${rule.rain} mm needed`,
    }
  return { primary: false, why: 'too cold for infection, though hours of rain are missing' }
}
