import {
  DOWNY_PRIMARY_RULES,
  type DownyPrimaryRule,
  type DownyPrimaryVariant,
  downyPrimaryRule,
} from '../../agronomy/disease/downy-primary-rules.ts'
import { ASCOSPORE_RAIN } from '../../agronomy/disease/powdery-ascospores.ts'
import { lowest } from '../../agronomy/statistics/extremes.ts'
import { isoDate } from '../../records/date.ts'
import type { DailyWeather } from '../weather/hours.ts'
import { type PressureDay, type PressureSite, UNKNOWN_INDEX } from './days.ts'

/** The reason where daily weather is not enough. */
export const NEEDS_HOURS = 'needs hourly weather'

/** °C below which oil spots infect on no night: WineSkills, Plumpton (read). */
const WARM_NIGHT = 13

/** The downy mildew rule for daily weather, where the site's rule needs hours. */
export const ruleForDays = (variant: DownyPrimaryVariant): DownyPrimaryVariant =>
  DOWNY_PRIMARY_RULES[variant].window === 'calendar' ? variant : 'three-tens'

/**
 * The indices for a file with one row a day: downy's primary infection by a rule for days (three tens, Baldacci 1947 as
 * cited, unless another rule for days is named), the rest unknown, since it needs hours.
 */
export function dailyPressureDays(days: readonly DailyWeather[], site: PressureSite): PressureDay[] {
  const rule = downyPrimaryRule(ruleForDays(site.variant), site.limits)
  const unknown = { complete: false, wetHours: null, why: NEEDS_HOURS }
  return days.map((day, at) => {
    const window = days.slice(Math.max(0, at + 1 - rule.days), at + 1)
    const cold = day.max !== null && day.max < WARM_NIGHT
    return {
      date: isoDate(day.day),
      daily: { max: day.max, mean: day.mean, rain: day.rain },
      powdery: {
        ...UNKNOWN_INDEX,
        ascospores: ascosporesOn(days.slice(Math.max(0, at - 1), at + 1)),
        why: NEEDS_HOURS,
      },
      downy: {
        ...(site.starts.shortShoots(day.day)
          ? { primary: false, why: 'shoots shorter than 10 cm' }
          : primaryOf(window, rule)),
        secondary: cold ? false : null,
        secondaryWhy: cold ? `no hour of ${WARM_NIGHT} °C` : NEEDS_HOURS,
      },
      botrytis: { index: null, risk: null, temperature: null, beyond: null, ...unknown },
      blackRot: { infection: null, neededHours: null, ...unknown },
    }
  })
}

/** False where a day and the one before had too little rain for ascospores; else null, since wet hours aren't known. */
function ascosporesOn(window: readonly DailyWeather[]): false | null {
  if (window.length < 2 || window.some(({ rain }) => rain === null)) return null
  return window.reduce((sum, { rain }) => sum + rain!, 0) < ASCOSPORE_RAIN - 1e-9 ? false : null
}

/** Applies the rule to the days of its window, which ends with the day asked about. */
function primaryOf(
  window: readonly DailyWeather[],
  rule: DownyPrimaryRule,
): { primary: boolean | null; why: string } {
  const reaches = (value: number, limit: number, above: boolean) =>
    above ? value > limit + 1e-9 : value >= limit - 1e-9
  const rain = window.reduce((sum, day) => sum + (day.rain ?? 0), 0)
  const dry = window.some((day) => day.rain === null)
  const wet = reaches(rain, rule.rain, rule.rainAbove)
  const span = rule.days === 2 ? '2 days' : '1 day'
  if (!wet) {
    if (dry) return { primary: null, why: `rain in ${span} is missing` }
    return { primary: false, why: `${rain.toFixed(1)} mm within ${span}, ${rule.rain} mm needed` }
  }
  const byMinimum = rule.temperatureAs === 'minimum'
  const degrees = window.map(({ min, mean }) => (byMinimum ? min : mean))
  if (degrees.some((one) => one === null)) return { primary: null, why: `temperature in ${span} is missing` }
  const known = degrees.map((one) => one!)
  const value = byMinimum ? lowest(known) : known.reduce((sum, one) => sum + one, 0) / known.length
  const warm = reaches(value, rule.temperature, rule.temperatureAbove)
  const said = `${rain.toFixed(1)} mm within ${span}, ${byMinimum ? 'lowest' : 'mean'} ${value.toFixed(1)} °C`
  return { primary: warm, why: warm ? said : `${said}, ${rule.temperature} °C needed` }
}
