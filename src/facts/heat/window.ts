import type { DayTemperatures } from '../../agronomy/heat/degree-days.ts'
import { type Hemisphere, hemisphereOf, type SeasonWindow } from '../../agronomy/heat/season-window.ts'
import { winklerSeason } from '../../agronomy/heat/winkler.ts'
import { addDays, calendarDay, dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { shortDate } from '../../records/spoken-date.ts'
import type { DailyWeather } from '../weather/days.ts'

export interface DateSpan {
  from: IsoDate
  to: IsoDate
}

/**
 * The dates of a window such as April to October in the season of a harvest year; in the south it begins the year
 * before.
 */
export function windowOf(
  window: SeasonWindow,
  { season, hemisphere }: { season: number; hemisphere: Hemisphere },
): DateSpan {
  const date = (year: number, { month, day }: SeasonWindow['from']) =>
    `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`
  return {
    from: date(hemisphere === 'south' ? season - 1 : season, window.from),
    to: date(season, window.to),
  }
}

/** The same days of another year; 29 February becomes the 28th where that year has none. */
export function shiftYears({ from, to }: DateSpan, years: number): DateSpan {
  const shift = (date: IsoDate) => {
    const moved = `${Number(date.slice(0, 4)) + years}${date.slice(4)}`
    return calendarDay(moved) === null ? `${moved.slice(0, 8)}28` : moved
  }
  return { from: shift(from), to: shift(to) }
}

/** An item for every day of a span, null where there is no weather for it. */
export function daysIn(days: readonly DailyWeather[], { from, to }: DateSpan): (DailyWeather | null)[] {
  const first = days[0]?.day ?? 0
  const start = dayOf(from)
  return Array.from(
    { length: Math.max(0, dayOf(to) - start + 1) },
    (_, at) => days[start + at - first] ?? null,
  )
}

/** The days up to a date. */
export function daysUpTo(days: readonly DailyWeather[], last: IsoDate): readonly DailyWeather[] {
  const end = dayOf(last)
  return (days.at(-1)?.day ?? 0) <= end ? days : days.filter(({ day }) => day <= end)
}

/** The last day with temperatures. */
export function lastKnown(days: readonly DailyWeather[]): IsoDate | null {
  const day = days.findLast((one) => extremes(one) !== null)
  return day ? isoDate(day.day) : null
}

/** The growing season up to a day, or to the last day with known temperatures. */
export function growingKnown(days: readonly DailyWeather[], growing: DateSpan, asOf: IsoDate): DateSpan {
  const end = growing.to < asOf ? growing.to : asOf
  const last = lastKnown(daysUpTo(days, end)) ?? end
  const to = last < end ? last : end
  return { from: growing.from, to: to < growing.from ? growing.from : to }
}

/** The lowest and highest temperature of a day, null where either is unknown. */
export function extremes(day: DailyWeather | null): DayTemperatures | null {
  return day && day.min !== null && day.max !== null ? { min: day.min, max: day.max } : null
}

/** `12 of 214 days are unknown, the first 22 Jul`; null where all are known. */
export function unknownDays(days: readonly (DailyWeather | null)[], from: IsoDate): string | null {
  const unknown = days.flatMap((day, at) => (extremes(day) === null ? [at] : []))
  if (unknown.length === 0) return null
  if (unknown.length === days.length) return 'no day has temperatures'
  const first = dayOf(from) + unknown[0]!
  const isTail = unknown[0] === days.length - unknown.length
  if (isTail)
    return `not complete yet: weather to ${shortDate(isoDate(first - 1))}, ${days.length - unknown.length} of ${days.length} days`
  return `${unknown.length} of ${days.length} days ${unknown.length === 1 ? 'is' : 'are'} unknown, the first ${shortDate(isoDate(first))}`
}

/** The growing days of a season by the calendar, used where no entry says otherwise. */
export function growingSpan({ latitude }: { latitude: number }, season: number): DateSpan {
  const hemisphere = hemisphereOf(latitude)
  return windowOf(winklerSeason[hemisphere], { season, hemisphere })
}

/** The lowest and highest temperature of each day; null where unknown. */
export type Ends = readonly (DayTemperatures | null)[]

/** Longest station outage to fill, in days. Our own choice, as is the straight line. */
const LONGEST_OUTAGE = 3

/** Fills short outages by straight lines between the days around them; longer ones stay unknown. */
export function fillShortOutages(days: Ends): Ends {
  const filled = [...days]
  for (let at = 0; at < days.length; at++) {
    if (days[at] !== null) continue
    const next = days.slice(at).findIndex((one) => one !== null)
    const length = next < 0 ? days.length - at : next
    const before = filled[at - 1]
    const after = days[at + length]
    if (before && after && length <= LONGEST_OUTAGE)
      for (let step = 1; step <= length; step++) {
        const share = step / (length + 1)
        filled[at + step - 1] = {
          min: before.min + (after.min - before.min) * share,
          max: before.max + (after.max - before.max) * share,
        }
      }
    at += length - 1
  }
  return filled
}

/** Days around a span that may be neighbours of an outage at its ends. */
const MARGIN = LONGEST_OUTAGE + 1

/**
 * The days of a span with short outages filled, and as they were measured. They are filled before the span is cut out,
 * so that an outage at its end has both its neighbours.
 */
export function filledDays(
  days: readonly DailyWeather[],
  { from, to }: DateSpan,
): Record<'filled' | 'measured', Ends> {
  const measured = daysIn(days, { from: addDays(from, -MARGIN), to: addDays(to, MARGIN) }).map(extremes)
  return {
    filled: fillShortOutages(measured).slice(MARGIN, -MARGIN),
    measured: measured.slice(MARGIN, -MARGIN),
  }
}
