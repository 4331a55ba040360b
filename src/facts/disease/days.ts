import { blackRotOfSpell } from '../../agronomy/disease/black-rot.ts'
import { botrytisOfSpell } from '../../agronomy/disease/botrytis.ts'
import { type BotrytisRisk, botrytisInfection } from '../../agronomy/disease/botrytis-infection.ts'
import { downyPrimary } from '../../agronomy/disease/downy-primary.ts'
import {
  type DownyLimits,
  type DownyPrimaryVariant,
  downyPrimaryRule,
} from '../../agronomy/disease/downy-primary-rules.ts'
import { downySecondary } from '../../agronomy/disease/downy-secondary.ts'
import { ascosporeInfection } from '../../agronomy/disease/powdery-ascospores.ts'
import { powderyIndex } from '../../agronomy/disease/powdery-index.ts'
import { sunTimes } from '../../agronomy/weather/night.ts'
import { type SpellDay, spellDays } from '../../agronomy/weather/spell-days.ts'
import type { EveryHour } from '../../agronomy/weather/weather-hours.ts'
import { wetHours } from '../../agronomy/weather/wet-hours.ts'
import { type IsoDate, isoDate } from '../../records/date.ts'
import type { Starts } from './starts.ts'

export interface PressureDay {
  date: IsoDate
  /** The readings of a file with one row a day, °C and mm; absent where there are hours. */
  daily?: { max: number | null; mean: number | null; rain: number | null }
  powdery: {
    /** 0 to 100 after this day; null where unknown, and `why` says why. */
    index: number | null
    /** Change since the day before. */
    points: number | null
    /** Longest unbroken run of hours in range. */
    hoursInRange: number | null
    /** Bounds of the index where hours are missing. */
    low: number | null
    high: number | null
    phase: 'start' | 'running' | null
    /** Whether ascospores may have infected in a wet spell, which the index doesn't cover. */
    ascospores: boolean | null
    why: string | null
  }
  downy: {
    primary: boolean | null
    why: string
    /** Whether the night suited infection from existing oil spots. */
    secondary: boolean | null
    secondaryWhy: string
  }
  botrytis: {
    /** Predicted share of berries infected, 0 to 1. */
    index: number | null
    risk: BotrytisRisk | null
    why: string
    /**
     * Where the day lies outside what the model was fitted to: `at least`, wet for longer, so that the value is
     * that of the longest time it was fitted to, or hours are missing; `too short` and `temperature`, no value. Null within.
     */
    beyond: 'at least' | 'too short' | 'temperature' | null
    wetHours: number | null
    /** Mean °C while wet. */
    temperature: number | null
    complete: boolean
  }
  blackRot: {
    infection: boolean | null
    why: string
    wetHours: number | null
    neededHours: number | null
    complete: boolean
  }
}

export interface PressureSite {
  starts: Starts
  variant: DownyPrimaryVariant
  limits?: DownyLimits | undefined
  /** Degrees; null where unknown, and then no night is judged. */
  latitude: number | null
  /** Hours by which the clock is ahead of mean solar time on a day. */
  noonShift: (day: number) => number
}

/** Each index for every day of the hours given. */
export function pressureDays(hours: EveryHour, site: PressureSite): PressureDay[] {
  const { starts, variant, limits, latitude, noonShift } = site
  const powdery = powderyDays(hours, starts)
  const wetness = wetHours(hours)
  const spells = spellDays(hours, wetness)
  const primary = downyPrimary(hours, downyPrimaryRule(variant, limits))
  const night = (day: number) => {
    const of = (one: number) => sunTimes({ day: one, latitude: latitude ?? 0, noonShift: noonShift(one) })
    return { sunset: of(day - 1).sunset, sunrise: of(day).sunrise }
  }
  let nights: ReturnType<typeof downySecondary> | undefined
  // Calculated on demand: needed only where oil spots were seen, or every day is shown.
  const secondaryOn = (at: number) => {
    if (latitude === null) return null
    nights ??= downySecondary(hours, { wetness, night })
    return nights[at]!
  }
  return primary.map(({ day, primary: possible, why }, at) => ({
    date: isoDate(day),
    powdery: { ...powdery(day), ascospores: ascosporesOn(spells[at]!, starts) },
    downy: {
      ...(starts.shortShoots(day)
        ? { primary: false, why: 'shoots shorter than 10 cm' }
        : { primary: possible, why }),
      get secondary() {
        return secondaryOn(at)?.secondary ?? null
      },
      get secondaryWhy() {
        return secondaryOn(at)?.why ?? 'no latitude is given, so that the night is not known'
      },
    },
    botrytis: botrytisOf(spells[at]!, starts),
    // Calculated on demand: most vineyards don't use it.
    get blackRot() {
      const found = blackRotOfSpell(spells[at]!)
      const { why, wetHours, neededHours } = found
      return {
        ...found,
        why: neededHours === null ? why : `${why}: ${wetHours} h of ${neededHours.toFixed(1)} h`,
      }
    },
  }))
}

/** Widest span between the bounds for which the index still counts as known: one day's step. Our own choice. */
const WIDEST_OPEN = 20

/** The powdery index of a day on which it isn't known; by hours, its bounds may be. */
export const UNKNOWN_INDEX = {
  index: null,
  points: null,
  hoursInRange: null,
  low: null,
  high: null,
  phase: null,
}

function powderyDays(hours: EveryHour, { budbreak, restart }: Starts) {
  const before = powderyIndex(hours, budbreak ?? undefined)
  const anew = restart === null ? [] : powderyIndex(hours, restart)
  return (day: number): Omit<PressureDay['powdery'], 'ascospores'> => {
    const days = restart !== null && day >= restart ? anew : before
    const found = days[day - (days[0]?.day ?? 0)]
    if (!found) return { ...UNKNOWN_INDEX, why: 'before budbreak' }
    const { index, change, low, high, phase, hoursInRange, missingHours, complete } = found
    if (missingHours >= 24) return { ...UNKNOWN_INDEX, low, high, phase, why: 'no temperature on this day' }
    const open = `hours are missing: between ${low} and ${high}`
    if (high - low > WIDEST_OPEN) return { ...UNKNOWN_INDEX, low, high, phase, hoursInRange, why: open }
    return { index, points: change, hoursInRange, low, high, phase, why: complete ? null : open }
  }
}

function ascosporesOn({ day, spells, unknownHours }: SpellDay, { budbreak }: Starts) {
  if (budbreak !== null && day < budbreak) return false
  const judged = spells.map(ascosporeInfection)
  if (judged.includes(true)) return true
  return judged.includes(null) || unknownHours > 0 ? null : false
}

/** Hours of wetness that the model was fitted to: Broome et al. 1995, from memory. */
const FEWEST_WET = 4
const MOST_WET = 24

function botrytisOf(spellDay: SpellDay, { beforeFlowering }: Starts): PressureDay['botrytis'] {
  const { day, index, risk, why, wetHours, temperature, complete } = botrytisOfSpell(spellDay)
  const outside = why === 'outside 12-30 °C' ? ('temperature' as const) : null
  const facts = { wetHours, temperature, complete, beyond: outside }
  const unknown = { ...facts, index: null, risk: null }
  if (beforeFlowering(day)) return { ...unknown, why: 'before flowering' }
  const said = why === 'computed' ? `${wetHours} h wet at ${temperature!.toFixed(1)} °C` : why
  if (!complete && (risk === null || risk === 'none')) return { ...unknown, why: `${said}; ${MISSING}` }
  if (risk === null || wetHours === 0) return { ...facts, index, risk, why: said }
  if (wetHours > MOST_WET) {
    const atLeast = botrytisInfection(MOST_WET, temperature!)
    const why = `at least: ${wetHours} h wet, and the model was fitted to ${MOST_WET} h`
    return { ...facts, index: atLeast.index, risk: atLeast.risk, why, beyond: 'at least' }
  }
  if (wetHours < FEWEST_WET) {
    const why = `${wetHours} h wet, under the ${FEWEST_WET} h that the model was fitted to`
    return { ...facts, index: null, risk, why, beyond: 'too short' }
  }
  if (!complete) return { ...facts, index, risk, why: `${said}; ${MISSING}`, beyond: 'at least' }
  return { ...facts, index, risk, why: said }
}

const MISSING = 'hours are missing, so it may have been wet for longer'
