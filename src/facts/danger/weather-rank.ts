import { botrytisInfection } from '../../agronomy/disease/botrytis-infection.ts'
import { powderyPressure } from '../../agronomy/disease/powdery-interval.ts'
import { daysBetween, type IsoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { NEEDS_HOURS } from '../disease/daily-days.ts'
import type { PressureDay } from '../disease/days.ts'

/** 0 no infection possible, 1 low, 2 moderate, 3 high. */
export type Rank = 0 | 1 | 2 | 3

/** How far the weather of the last days favoured a disease. */
export interface WeatherRank {
  /** The worst rank known; null, or 0 with `open`, where nothing is known. */
  rank: Rank | null
  /** Whether unknown hours or days could make it worse. */
  open: boolean
  reasons: string[]
  unknown: string[]
}

/** Days to look back. Our own choice. */
export const RECENT_DAYS = 7
/** Days a station's export may lag before the weather counts as unknown. Our own choice. */
const LAG_DAYS = 2

/** Ranks the weather for a disease, from the last days up to the one asked about; `days` has no gap. */
export function weatherRank(
  disease: Disease,
  days: readonly PressureDay[],
  { date, oilSpotsSince }: { date: IsoDate; oilSpotsSince: IsoDate | null },
): WeatherRank {
  const end = days[0] === undefined ? 0 : daysBetween(days[0].date, date) + 1
  const recent = days.slice(Math.max(0, end - RECENT_DAYS), Math.max(0, end))
  const last = recent.at(-1)?.date
  if (last === undefined) return ranked(null, [], ['weather'])
  const found = withDaily(disease, rankOf(disease, recent, oilSpotsSince), recent)
  const silent = daysBetween(last, date)
  if (silent <= LAG_DAYS) return found
  return { ...found, open: true, unknown: [`weather since ${shortDate(last)}`, ...found.unknown] }
}

function rankOf(disease: Disease, days: readonly PressureDay[], oilSpotsSince: IsoDate | null): WeatherRank {
  if (disease === 'powdery') return powdery(days)
  if (disease === 'downy') return downy(days, oilSpotsSince)
  if (disease === 'botrytis') return botrytis(days)
  if (disease === 'black-rot') return blackRot(days)
  if (disease === 'phomopsis') return phomopsis(days)
  return ranked(null, [], [`weather: rowbook has no model of ${diseaseWord(disease)}`])
}

/** A rank that what is unknown could make worse. */
const ranked = (rank: Rank | null, reasons: string[], unknown: string[]): WeatherRank => ({
  rank,
  open: unknown.length > 0,
  reasons,
  unknown,
})

/** Lowest °C of hours that favour powdery mildew: 70 °F (Gubler et al. 1999, as `pressure` cites it). */
const WARM_DAY = (70 - 32) / 1.8

/**
 * What daily weather says about a disease whose model needs hours: how often it was warm enough, or rained. It raises
 * nothing and lowers nothing: the class stays unknown, and an hourly file would settle it.
 */
function withDaily(disease: Disease, found: WeatherRank, days: readonly PressureDay[]): WeatherRank {
  const known = days.flatMap(({ daily }) => daily ?? [])
  if (known.length === 0 || disease === 'downy') return found
  const isSaid = found.unknown.some((what) => what.endsWith(NEEDS_HOURS))
  const rest = known.length === days.length ? [] : found.unknown
  const unknown = isSaid ? found.unknown : [...rest, `leaf wetness: ${NEEDS_HOURS}`]
  const said = disease === 'powdery' ? warmDays(known) : rainDays(known)
  return { ...found, reasons: [...found.reasons, ...said], unknown }
}

type DailyReading = NonNullable<PressureDay['daily']>

function warmDays(days: readonly DailyReading[]): string[] {
  const maxima = days.flatMap(({ max }) => max ?? [])
  const warm = maxima.filter((max) => max >= WARM_DAY).length
  return maxima.length === 0 ? [] : [`${warm} of ${ofDays(maxima)} reached ${WARM_DAY.toFixed(0)} °C`]
}

function rainDays(days: readonly DailyReading[]): string[] {
  const rain = days.flatMap((day) => day.rain ?? [])
  const wet = rain.filter((mm) => mm > 0).length
  const sum = rain.reduce((all, mm) => all + mm, 0)
  if (rain.length === 0) return []
  if (wet === 0) return [`no rain on ${ofDays(rain)}`]
  return [`rain on ${wet} of ${ofDays(rain)}, ${sum < 0.5 ? 'under 1' : sum.toFixed(0)} mm altogether`]
}

const ofDays = ({ length }: readonly number[]) => (length === 1 ? '1 day' : `${length} days`)

/** Hours of wetness from which young shoots may be infected by phomopsis. Common practice, no source. */
const WET_SHOOTS = 10

/** Wet spells on young shoots: moderate from ten hours, else unknown, since no model supports it. */
function phomopsis(days: readonly PressureDay[]): WeatherRank {
  const wet = days.filter(({ botrytis }) => (botrytis.wetHours ?? 0) >= WET_SHOOTS)
  const last = wet.at(-1)
  const unknown = ['phomopsis: rowbook has no model of it']
  if (!last) return ranked(null, [], unknown)
  const reason = `shoots wet for ${last.botrytis.wetHours} h, ${shortDate(last.date)}`
  return { rank: 2, open: false, reasons: [reason], unknown }
}

const listDates = (days: readonly { date: IsoDate }[]) =>
  days.length < 3
    ? days.map(({ date }) => shortDate(date)).join(' and ')
    : `${days.length} days to ${shortDate(days.at(-1)!.date)}`

/** What is unknown on some days; empty on none. */
const unknownOn = (what: string, days: readonly { date: IsoDate }[]): string[] =>
  days.length > 0 ? [`${what} on ${listDates(days)}`] : []

/** By the index after the last day, and by wet spells that release ascospores. */
function powdery(days: readonly PressureDay[]): WeatherRank {
  const { index, low, high, why } = days.at(-1)!.powdery
  const wet = days.filter((day) => day.powdery.ascospores === true)
  const value = index === null ? low : Math.round(high ?? index)
  const isKnown =
    index !== null || (low !== null && high !== null && powderyPressure(low) === powderyPressure(high))
  const rank: Rank | null = value === null ? null : RANK[powderyPressure(value)]
  const reasons = isKnown ? [`index ${index ?? `${low} to ${high}`} of 100`] : []
  const unknown = isKnown ? [] : [`powdery index: ${why ?? 'unknown'}`]
  if (wet.length === 0) return ranked(rank, reasons, unknown)
  const spell = `wet spell for ascospores on ${listDates(wet)}`
  // The reason that decides the class comes first.
  const said = (rank ?? 0) < 2 ? [spell, ...reasons] : [...reasons, spell]
  return ranked(Math.max(rank ?? 0, 2) as Rank, said, unknown)
}

const RANK = { none: 0, low: 1, moderate: 2, high: 3 } as const

/** Primary infection, or a night that suits infection where there are oil spots. */
function downy(days: readonly PressureDay[], oilSpotsSince: IsoDate | null): WeatherRank {
  const primary = days.filter(({ downy }) => downy.primary === true)
  const spotted = oilSpotsSince === null ? [] : days.filter(({ date }) => date > oilSpotsSince)
  const nights = spotted.filter(({ downy }) => downy.secondary === true)
  const reasons = [
    ...primary.slice(-1).map(({ date, downy }) => `infection possible on ${shortDate(date)} (${downy.why})`),
    ...(nights.length > 0 ? [`nights allowed infection from oil spots: ${listDates(nights)}`] : []),
  ]
  const unknown = [
    ...unknownOn(
      'rain or temperature',
      days.filter(({ downy }) => downy.primary === null),
    ),
    ...unknownOn(
      'night humidity',
      spotted.filter(({ downy }) => downy.secondary === null),
    ),
  ]
  return ranked(primary.length + nights.length > 0 ? 3 : 0, reasons, unknown)
}

/** °C below which the model gives no value: Broome et al. 1995, range from memory. */
const COLDEST = 12

/**
 * The worst wet spell of the days. A spell below 12 °C counts as at 12 °C, a public reading of Broome et al. 1995
 * (54 °F in a station operator's notes, read): never as no danger. Above 30 °C the model has no value, and what isn't
 * known is not low. Beyond the 24 h that the model was fitted to, it is extrapolated, and the reason says so.
 */
function botrytis(days: readonly PressureDay[]): WeatherRank {
  let rank: Rank | null = null
  const reasons: string[] = []
  for (const { date, botrytis } of days) {
    const { wetHours, temperature } = botrytis
    if (wetHours === null || (wetHours > 0 && temperature === null)) continue
    if (isTooHot(botrytis)) continue
    const found = botrytisInfection(wetHours, wetHours === 0 ? COLDEST : Math.max(COLDEST, temperature!))
    const one = RANK[found.risk ?? 'none']
    if (one > (rank ?? -1)) {
      const cold = wetHours > 0 && temperature! < COLDEST ? ', taken as 12 °C' : ''
      const at = `${wetHours} h wet at ${temperature?.toFixed(0)} °C${cold}, ${shortDate(date)}`
      reasons.splice(0, reasons.length, ...(one > 0 ? [at] : []))
    }
    rank = Math.max(rank ?? 0, one) as Rank
  }
  const open = days.filter((day) => !day.botrytis.complete)
  const hot = days.filter((day) => isTooHot(day.botrytis))
  return ranked(rank, reasons, [
    ...unknownOn('hours of leaf wetness', open),
    ...unknownOn('infection while wet above 30 °C', hot),
  ])
}

/** Whether it was wet above the temperatures of the model. */
const isTooHot = ({ beyond, temperature }: PressureDay['botrytis']) =>
  beyond === 'temperature' && temperature! > COLDEST

function blackRot(days: readonly PressureDay[]): WeatherRank {
  const possible = days.filter(({ blackRot }) => blackRot.infection === true)
  const open = days.filter(({ blackRot }) => blackRot.infection === null)
  const reasons = possible
    .slice(-1)
    .map(({ date, blackRot }) => `infection possible on ${shortDate(date)} (${blackRot.wetHours} h wet)`)
  return ranked(possible.length > 0 ? 3 : 0, reasons, unknownOn('hours of leaf wetness', open))
}
