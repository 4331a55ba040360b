/** One hour of weather by the vineyard's local clock. `null` is unknown, never zero. */
export interface HourlyWeather {
  /** Days since 1970-01-01 of the local date. */
  day: number
  /** 0 to 23. */
  hour: number
  /** °C. */
  temperature: number | null
  /** Relative humidity, %. */
  humidity: number | null
  /** mm in the hour. */
  rain: number | null
  /** Minutes of leaf wetness in the hour. */
  wetness: number | null
}

declare const checked: unique symbol
/** Hours in order with a row for every hour of every day, so that neighbours in the array are neighbours in time. */
export type EveryHour = readonly HourlyWeather[] & { readonly [checked]: true }

/** The hours of one day as positions in the series, both ends included. */
export interface DayOfHours {
  day: number
  first: number
  last: number
}

const LONGEST_SERIES_DAYS = 4100

/** Hours since 1970-01-01 00:00 local: the number by which an hour is named. */
export const hourNumber = (day: number, hour: number): number => day * 24 + hour

/**
 * Puts an all-unknown row where an hour is missing, from hour 0 of the first day to hour 23 of the last.
 * `skipped` and `repeated` are the hour numbers that the local clock leaves out or has twice at its changes.
 * Throws a RangeError for hours out of order, twice without cause, spanning over eleven years, or not finite.
 */
export function everyHour(
  hours: readonly HourlyWeather[],
  options: { skipped?: ReadonlySet<number>; repeated?: ReadonlySet<number> } = {},
): EveryHour {
  const first = hours[0]
  const last = hours.at(-1)
  const filled: HourlyWeather[] = []
  if (!first || !last) return filled as unknown as EveryHour
  if (last.day - first.day > LONGEST_SERIES_DAYS) throw new RangeError('everyHour takes at most eleven years')
  let next = first.day * 24
  const fillTo = (end: number) => {
    for (; next < end; next++) if (!options.skipped?.has(next)) filled.push(unknownHour(next))
  }
  for (const hour of hours) {
    requireFinite(hour)
    const number = hourNumber(hour.day, hour.hour)
    const again = number === next - 1 && filled.length > 0 && options.repeated?.has(number)
    if (number < next && !again)
      throw new RangeError(`everyHour: day ${hour.day} hour ${hour.hour} is out of order`)
    if (number > next) fillTo(number)
    filled.push(hour)
    next = number + 1
  }
  fillTo((last.day + 1) * 24)
  return filled as unknown as EveryHour
}

/** Splits the series at midnight. */
export function daysOfHours(hours: EveryHour): DayOfHours[] {
  const days: DayOfHours[] = []
  // An iterator would make an array for each of a year's hours.
  hours.forEach(({ day }, at) => {
    const last = days.at(-1)
    if (last?.day === day) last.last = at
    else days.push({ day, first: at, last: at })
  })
  return days
}

/** Length of the longest unbroken run of positions `first` to `last` for which `holds` is true. */
export function longestRun(first: number, last: number, holds: (at: number) => boolean): number {
  let longest = 0
  let run = 0
  for (let at = first; at <= last; at++) {
    run = holds(at) ? run + 1 : 0
    if (run > longest) longest = run
  }
  return longest
}

function unknownHour(number: number): HourlyWeather {
  const day = Math.floor(number / 24)
  return { day, hour: number - day * 24, temperature: null, humidity: null, rain: null, wetness: null }
}

function requireFinite(hour: HourlyWeather): void {
  const { day, hour: clock, temperature, humidity, rain, wetness } = hour
  const inClock = day % 1 === 0 && clock % 1 === 0 && clock >= 0 && clock <= 23
  const sum = (temperature ?? 0) + (humidity ?? 0) + (rain ?? 0) + (wetness ?? 0)
  // A number minus itself is 0 unless it is infinite or NaN: a fast test, since this runs for every hour of a year.
  if (!inClock || sum - sum !== 0)
    throw new RangeError(`everyHour: day ${day} hour ${hour.hour} is not a number`)
}
