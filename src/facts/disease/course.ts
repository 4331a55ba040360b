import type { EveryHour } from '../../agronomy/weather/weather-hours.ts'
import { addDays, dayOf, type IsoDate } from '../../records/date.ts'
import { offsetAt } from '../../records/zone.ts'
import { growingSpan } from '../heat/window.ts'
import type { ReportInput } from '../report.ts'
import { type Weather, weatherOf } from '../weather/hours.ts'
import { dailyPressureDays } from './daily-days.ts'
import { type PressureSite, pressureDays } from './days.ts'
import { incubations } from './downy-incubations.ts'
import { withHandDays, withHandHours } from './hand-days.ts'
import { startsOf } from './starts.ts'

/** Disease pressure day by day. */
export type PressureCourse = ReturnType<typeof pressureCourse>

/** The indices of every day of a span, by the hours of a weather file. */
export function pressureCourse(
  weather: Weather,
  { site, from, to }: { site: PressureSite; from: IsoDate; to: IsoDate },
) {
  const began = Math.min(dayOf(from), site.starts.budbreak ?? Infinity) - LEAD_DAYS
  const hours = hoursUpTo(weather.hoursFrom(began), dayOf(to))
  const byHours = weather.form === 'hourly'
  const all = byHours
    ? withHandDays(pressureDays(hours, site), weather.days, site)
    : dailyPressureDays(weather.days, site)
  const days = all.filter(({ date }) => date >= from && date <= to)
  const last = days.at(-1)?.date ?? to
  return {
    from,
    to: last,
    days,
    get incubations() {
      if (byHours) return incubations(days, withHandHours(hours, weather.days, to))
      const means = weather.days.map(({ day, mean }) => ({ day, temperature: mean }))
      return incubations(days, means, 1)
    },
    starts: site.starts,
    /** The hours used to judge the days, and some before the first. */
    hours,
    /** Why there are no days, or no values; null where there are. */
    why: whyNothing(weather, days.length),
  }
}

/**
 * The pressure on the whole site from the first day of growth to the requested day, whichever blocks a report covers.
 * @param last only so many days, for botrytis and black rot, whose models use wet spells: the powdery index, which runs
 * from budbreak, then stays unknown.
 */
export function sitePressure(
  { ledger, season, asOf }: Omit<ReportInput, 'blocks'>,
  last = Infinity,
): PressureCourse {
  const growing = growingSpan(ledger.vineyard, season)
  const site = vineyardSite({ ledger, season, asOf, blocks: [...ledger.blocks.values()] })
  const first = last === Infinity ? growing.from : addDays(asOf, 1 - last)
  if (last < Infinity) site.starts = { ...site.starts, budbreak: Infinity, restart: null }
  return pressureCourse(weatherOf(ledger, season), {
    site,
    from: first > growing.from ? first : growing.from,
    to: growing.to < asOf ? growing.to : asOf,
  })
}

/** What the indices need to know about a vineyard: its place and clock, and its limits for downy mildew. */
export function vineyardSite(
  input: ReportInput,
  { variant = 'ten-ten-twentyfour', limits }: Partial<Pick<PressureSite, 'variant' | 'limits'>> = {},
): PressureSite {
  const { vineyard } = input.ledger
  const { rain, temperature } = vineyard.downy ?? {}
  return {
    starts: startsOf(input),
    variant,
    limits: { rain: limits?.rain ?? rain, temperature: limits?.temperature ?? temperature },
    latitude: vineyard.latitude,
    noonShift: noonShift(vineyard),
  }
}

/**
 * Days read before the first one asked for, so that wet spells and rain sums that reach into it are complete. Our own
 * choice.
 */
const LEAD_DAYS = 28

function whyNothing(weather: Weather, days: number): string | null {
  if (weather.form === null && weather.station.file === null)
    return 'no weather is recorded; import a station file, or run `rowbook note weather`'
  if (days === 0) return 'no weather in this span'
  return weather.form === 'daily' ? BY_DAYS : null
}

const BY_DAYS =
  'the weather has one row a day, which is enough for downy; an hourly file would add the powdery index, botrytis and black rot'

/** The hours up to the end of a day. */
function hoursUpTo(hours: EveryHour, day: number): EveryHour {
  if ((hours.at(-1)?.day ?? day) <= day) return hours
  return hours.filter((hour) => hour.day <= day) as unknown as EveryHour
}

/** How far the vineyard's clock is ahead of mean solar time on a day, in hours. */
function noonShift({ timezone, longitude }: { timezone: string; longitude?: number | undefined }) {
  const ahead = new Map<number, number>()
  const offset = (day: number) => {
    const known = ahead.get(day) ?? offsetAt(day * 86_400_000, timezone)
    ahead.set(day, known)
    return known
  }
  // Without a longitude, that of the zone's standard time is used.
  const standard = Math.min(offset(WINTER_DAY), offset(SUMMER_DAY))
  return (day: number) => offset(day) / 60 - (longitude === undefined ? standard / 60 : longitude / 15)
}

const WINTER_DAY = dayOf('2026-01-01')
const SUMMER_DAY = dayOf('2026-07-01')
