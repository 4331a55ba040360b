import { daysOfHours, type EveryHour } from '../weather/weather-hours.ts'
import type { WetHours } from '../weather/wet-hours.ts'

/** Relative humidity, %, and °C at which spores form in the dark, and the consecutive hours needed. */
const HUMIDITY = 98
const TEMPERATURE = 13
const DARK_HOURS = 4
/** Neighbouring wet hours near dawn, after these. */
const WET_HOURS = 2
/** Hours before and after dawn that are near it. No source says how many: our choice. */
const NEAR_DAWN = 3

interface DownySecondaryDay {
  /** The day on which the night ends. */
  day: number
  secondary: boolean | null
  why: 'warm wet night' | 'no humid warm dark hours' | 'leaves dry at dawn' | 'data missing'
}

/**
 * Whether a night suited downy mildew's secondary infection, if active oil spots are there: RH >= 98 % and
 * >= 13 °C for at least 4 h of darkness, then leaves wet for 2-3 h near dawn. `night` gives sunset of the day
 * before and sunrise of the day, in hours of the local clock; only whole dark hours count.
 * Source: WineSkills, Plumpton; DPIRD Western Australia (both read).
 */
export function downySecondary(
  hours: EveryHour,
  { wetness, night }: { wetness: WetHours; night: (day: number) => { sunset: number; sunrise: number } },
): DownySecondaryDay[] {
  const { wet } = wetness
  const humid = hours.map(({ humidity, temperature }) => {
    if ((humidity !== null && humidity < HUMIDITY) || (temperature !== null && temperature < TEMPERATURE))
      return false
    return humidity === null || temperature === null ? null : true
  })
  const hasUnknown = humid.includes(null) || wet.includes(null)
  return daysOfHours(hours).map(({ day, first }) => {
    const { sunset, sunrise } = night(day)
    const at = (hour: number) => first + hour
    const dark = { from: at(Math.ceil(sunset) - 24), to: at(Math.floor(sunrise)) }
    const dawn = { from: at(Math.floor(sunrise) - NEAR_DAWN), to: at(Math.ceil(sunrise) + NEAR_DAWN) }
    const search = (unknownAs: boolean) => {
      const spores = endOfRun(humid, { ...dark, length: DARK_HOURS, unknownAs })
      const from = Math.max(dawn.from, spores)
      const infection = endOfRun(wet, { from, to: dawn.to, length: WET_HOURS, unknownAs })
      return { spores: spores < Infinity, infects: infection < Infinity }
    }
    const sure = search(false)
    if (sure.infects) return { day, secondary: true, why: 'warm wet night' }
    const isOpen = hasUnknown || dark.from < 0 || dawn.to > hours.length
    if (isOpen && search(true).infects) return { day, secondary: null, why: 'data missing' }
    return { day, secondary: false, why: sure.spores ? 'leaves dry at dawn' : 'no humid warm dark hours' }
  })
}

/** Where the first run of `length` hours ends, from `from` up to `to`; Infinity without one. */
function endOfRun(
  states: (boolean | null)[],
  { from, to, length, unknownAs }: { from: number; to: number; length: number; unknownAs: boolean },
): number {
  let run = 0
  for (let at = from; at < to; at++) {
    run = (states[at] ?? unknownAs) ? run + 1 : 0
    if (run >= length) return at + 1
  }
  return Infinity
}
