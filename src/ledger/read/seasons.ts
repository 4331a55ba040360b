import {
  addDays,
  calendarDay,
  dayOf,
  FIRST_YEAR,
  type IsoDate,
  isoDate,
  LAST_YEAR,
} from '../../records/date.ts'

interface Site {
  latitude: number
  season_starts?: string | undefined
}

/** The season a folder is named for, or null where its name isn't a plausible year. */
export function seasonNamed(folder: string): number | null {
  const year = /^\d{4}$/.test(folder) ? Number(folder) : 0
  return year >= FIRST_YEAR && year <= LAST_YEAR ? year : null
}

/**
 * First and last day of a season, named for the year of its harvest: from 1 November before it in the
 * northern hemisphere, from 1 June before it in the southern, or from `season_starts`.
 */
export function seasonSpan(site: Site, season: number): { first: IsoDate; last: IsoDate } {
  const start = startOfSeason(site)
  const yearOfStart = startsInItsOwnYear(site) ? season : season - 1
  const first = startDate(yearOfStart, start)
  return { first, last: addDays(startDate(yearOfStart + 1, start), -1) }
}

/** The season that a date falls in. */
export function seasonOf(site: Site, date: IsoDate): number {
  const year = Number(date.slice(0, 4))
  const begun = date >= startDate(year, startOfSeason(site))
  if (startsInItsOwnYear(site)) return begun ? year : year - 1
  return begun ? year + 1 : year
}

/**
 * Whether the season starts in the same calendar year as its harvest, which comes late in the north and early in the
 * south.
 */
function startsInItsOwnYear(site: Site): boolean {
  return Number(startOfSeason(site).slice(0, 2)) <= (site.latitude < 0 ? 2 : 8)
}

function startOfSeason(site: Site): string {
  return site.season_starts ?? (site.latitude < 0 ? '06-01' : '11-01')
}

function startDate(year: number, monthDay: string): IsoDate {
  const date = `${year}-${monthDay}`
  return calendarDay(date) === null ? isoDate(dayOf(`${year}-03-01`)) : date
}
