import { withDefaults } from '../statistics/with-defaults.ts'
import { daysOfHours, type EveryHour } from '../weather/weather-hours.ts'
import { type WetnessOptions, wetHours } from '../weather/wet-hours.ts'

interface DownySecondaryLimits {
  /** Relative humidity, %. */
  humidity: number
  /** °C. */
  temperature: number
  /** Neighbouring dark hours with both. */
  darkHours: number
  /** Neighbouring wet hours near dawn, after these. */
  wetHours: number
  /** Hours before and after dawn that are near it. */
  nearDawn: number
}
const DOWNY_SECONDARY_LIMITS: DownySecondaryLimits = {
  humidity: 98,
  temperature: 13,
  darkHours: 4,
  wetHours: 2,
  nearDawn: 3,
}

interface DownySecondaryDay {
  /** The day on which the night ends. */
  day: number
  secondary: boolean | null
  why: 'warm wet night' | 'no humid warm dark hours' | 'leaves dry at dawn' | 'data missing'
  /** Longest run of humid, warm, dark hours. */
  humidDarkHours: number
}

/**
 * Whether a night suited downy mildew's secondary infection, if active oil spots are there: RH >= 98 % and
 * >= 13 °C for at least 4 h of darkness, then leaves wet for 2-3 h near dawn. `night` gives sunset of the day
 * before and sunrise of the day, in hours of the local clock; only whole dark hours count.
 * Source: WineSkills, Plumpton; DPIRD Western Australia (both read). How near to dawn no source says: 3 h, our choice.
 */
export function downySecondary(
  hours: EveryHour,
  options: { night: (day: number) => { sunset: number; sunrise: number } } & Partial<DownySecondaryLimits> &
    WetnessProxy,
): DownySecondaryDay[] {
  const { night, wetMinutes, proxyHumidity, ...changes } = options
  const limits = withDefaults(DOWNY_SECONDARY_LIMITS, changes)
  const { wet } = wetHours(hours, { wetMinutes, humidity: proxyHumidity })
  const humid = hours.map(({ humidity, temperature }) => {
    if (
      (humidity !== null && humidity < limits.humidity) ||
      (temperature !== null && temperature < limits.temperature)
    )
      return false
    return humidity === null || temperature === null ? null : true
  })
  const hasUnknown = humid.includes(null) || wet.includes(null)
  return daysOfHours(hours).map(({ day, first }) => {
    const { sunset, sunrise } = night(day)
    const at = (hour: number) => first + hour
    const dark = { from: at(Math.ceil(sunset) - 24), to: at(Math.floor(sunrise)) }
    const dawn = {
      from: at(Math.floor(sunrise) - limits.nearDawn),
      to: at(Math.ceil(sunrise) + limits.nearDawn),
    }
    const search = (unknownAs: boolean) => {
      const humidRun = firstRun(humid, { ...dark, length: limits.darkHours, unknownAs })
      const wetFrom = Math.max(dawn.from, humidRun.end)
      const wetRun = firstRun(wet, { from: wetFrom, to: dawn.to, length: limits.wetHours, unknownAs })
      return {
        humidDarkHours: humidRun.longest,
        spores: humidRun.end < Infinity,
        infects: wetRun.end < Infinity,
      }
    }
    const sure = search(false)
    const result = (secondary: boolean | null, why: DownySecondaryDay['why']) => ({
      day,
      secondary,
      why,
      humidDarkHours: sure.humidDarkHours,
    })
    if (sure.infects) return result(true, 'warm wet night')
    const isOpen = hasUnknown || dark.from < 0 || dawn.to > hours.length
    if (isOpen && search(true).infects) return result(null, 'data missing')
    return result(false, sure.spores ? 'leaves dry at dawn' : 'no humid warm dark hours')
  })
}

interface WetnessProxy {
  wetMinutes?: WetnessOptions['wetMinutes']
  /** Relative humidity, %, of the wetness proxy. */
  proxyHumidity?: number
}

/** Where the first run of `length` hours ends (Infinity without one), and the longest run, from `from` up to `to`. */
function firstRun(
  states: (boolean | null)[],
  { from, to, length, unknownAs }: { from: number; to: number; length: number; unknownAs: boolean },
) {
  let run = 0
  let longest = 0
  let end = Infinity
  for (let at = from; at < to; at++) {
    run = (states[at] ?? unknownAs) ? run + 1 : 0
    longest = Math.max(longest, run)
    if (run >= length && end === Infinity) end = at + 1
  }
  return { longest, end }
}
