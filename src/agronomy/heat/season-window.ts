/** A day of the year, without a year. */
export interface MonthDay {
  month: number
  day: number
}

/** First and last day of a season, both included; where `to` is before `from` it runs over the new year. */
export interface SeasonWindow {
  from: MonthDay
  to: MonthDay
}

export type Hemisphere = 'north' | 'south'

/** Hemisphere of a latitude in degrees, north positive. The equator counts as north. */
export function hemisphereOf(latitude: number): Hemisphere {
  if (!Number.isFinite(latitude) || Math.abs(latitude) > 90) {
    throw new RangeError('hemisphereOf requires a latitude from -90 to 90')
  }
  return latitude < 0 ? 'south' : 'north'
}
