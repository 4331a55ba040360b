import { type EveryHour, everyHour, type HourlyWeather } from '../../agronomy/weather/weather-hours.ts'
import { CannotRead } from '../../ledger/read/cannot-read.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import type { StationHours } from '../../ledger/weather/hours.ts'
import { readingAt } from '../../ledger/weather/table.ts'
import { readWeather, type WeatherFile } from '../../ledger/weather/weather.ts'
import { type DayByHand, daysByHand, filledByHand } from './by-hand.ts'
import { type DailyWeather, daysFromHours, daysFromRows } from './days.ts'

export type { DailyWeather } from './days.ts'

/** An hour with its wind in m/s, which the disease models don't use. */
interface StationHour extends HourlyWeather {
  wind: number | null
}

/** The weather of a file by hours and by days, each built on first use. */
export class Weather {
  private madeHours: { from: number; hours: EveryHour } | undefined
  private madeDays: readonly DailyWeather[] | undefined

  constructor(
    /** The file as read, with its findings. */
    readonly station: WeatherFile,
    /** Days read by hand, which fill the station's gaps. */
    private readonly hand: readonly DayByHand[] = [],
  ) {}

  /** `hourly` for a station's hours; `daily` for a station's days or days read by hand; null where there is nothing. */
  get form(): 'hourly' | 'daily' | null {
    return this.station.form ?? (this.hand.length > 0 ? 'daily' : null)
  }

  /**
   * A row for every hour from the first day to the last (each a `StationHour` where the station has one); empty for
   * daily files.
   */
  get hours(): EveryHour {
    return this.hoursFrom(Number.NEGATIVE_INFINITY)
  }

  /** The same from a day on: a model that begins in April doesn't need winter's hours. */
  hoursFrom(day: number): EveryHour {
    if (this.madeHours?.from !== day) {
      const { table, changes } = this.station.hours
      const start = table.day.subarray(0, table.length).findIndex((one) => one >= day)
      const hours = hoursOfStation({ table, changes }, start < 0 ? table.length : start)
      this.madeHours = { from: day, hours }
    }
    return this.madeHours.hours
  }

  /** Every day from the first to the last, without building the hours. */
  get days(): readonly DailyWeather[] {
    const { form, hours, days } = this.station
    this.madeDays ??= filledByHand(form === 'daily' ? daysFromRows(days) : daysFromHours(hours), this.hand)
    return this.madeDays
  }
}

/**
 * The weather of a season of the ledger.
 * @throws CannotRead where the season's file can't be read: that differs from a season without weather.
 */
export function weatherOf(ledger: Ledger, season: number): Weather {
  const weather = seasonWeather(ledger, season)
  refuseUnread(weather.station.findings)
  return weather
}

const known = new WeakMap<Ledger, Map<number, Weather>>()

/**
 * The weather of a season as read, once for a ledger, even where nothing could be read from it.
 * @param options `keep: false` leaves the hours out of the cache.
 */
export function seasonWeather(ledger: Ledger, season: number, { keep = true } = {}): Weather {
  const seasons = known.get(ledger) ?? new Map<number, Weather>()
  known.set(ledger, seasons)
  const weather =
    seasons.get(season) ?? new Weather(readWeather(ledger, season, { keep }), daysByHand(ledger, season))
  seasons.set(season, weather)
  return weather
}

/** @throws CannotRead where a finding of a weather file says that nothing could be read from it. */
export function refuseUnread(findings: readonly Finding[]): void {
  const unread = findings.find(({ name }) => UNREAD.has(name))
  if (unread) throw new CannotRead(`${unread.file}: ${unread.message}; nothing was calculated`, unread.help)
}

const UNREAD: ReadonlySet<string> = new Set([
  'unreadable-file',
  'file-too-large',
  'not-a-plain-file',
  'not-utf8',
  'no-time-column',
])

function hoursOfStation({ table, changes }: StationHours, start: number): EveryHour {
  const rows: StationHour[] = []
  for (let at = start; at < table.length; at++)
    rows.push({
      day: table.day[at]!,
      hour: table.hour[at]!,
      temperature: readingAt(table, 'temperature', at),
      humidity: readingAt(table, 'humidity', at),
      rain: readingAt(table, 'rain', at),
      wetness: readingAt(table, 'wetness', at),
      wind: readingAt(table, 'wind', at),
    })
  return everyHour(rows, changes)
}
