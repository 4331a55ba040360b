import type { Finding } from '../read/finding.ts'
import type { Ledger } from '../read/ledger.ts'
import type { Measured } from './columns.ts'
import type { StationDay } from './days.ts'
import type { StationHours } from './hours.ts'
import type { WeatherTable } from './table.ts'

/** A station's file as read. What can't be read is unknown and reported in `findings`; nothing is thrown. */
export interface WeatherFile {
  /** Relative to the ledger, or as named; null where the season has no file. */
  file: string | null
  form: 'hourly' | 'daily' | null
  /** Rows that were read. */
  rows: number
  /** The hours that the station has; none for daily files. */
  hours: StationHours
  /** The days that it has; none for hourly files. */
  days: readonly StationDay[]
  /** What the file has a column for. */
  measured: ReadonlySet<Measured>
  findings: Finding[]
}

/** A weather file as cached JSON: numbers as raw bytes, which are read many times faster. */
interface KeptWeather {
  weather: Omit<WeatherFile, 'hours' | 'measured'>
  measured: Measured[]
  changes: { skipped: number[]; repeated: number[] }
  length: number
  columns: Record<'start' | 'day' | 'hour' | 'minute', string>
  readings: [Measured, string][]
}

/**
 * What an earlier run cached of a season's weather, for as long as its file and the site are unchanged; null where
 * nothing can be cached.
 */
export function weatherCache<T extends object>(
  { stations, reader, vineyard }: Ledger,
  season: number,
  kind?: 'hours',
) {
  const { cache } = reader
  const file = stations.get(season)
  const text = file === undefined || !cache ? undefined : reader.read(file).text
  if (!cache || file === undefined || text === undefined) return null
  // How the file is read depends on the site too: its columns, its clock, its season.
  const site = vineyard.source.at.text
  return {
    find(): T | null {
      const [kept] = (cache.find(file, text, kind) ?? []) as (T & { site: string })[]
      return kept?.site === site ? kept : null
    },
    keep: (weather: T) => cache.keep(file, text, [{ site, ...weather }], kind),
  }
}

/** The weather of a season cached by an earlier run, else null. */
export function keptWeather(ledger: Ledger, season: number): WeatherFile | null {
  const kept = weatherCache<KeptWeather>(ledger, season, 'hours')?.find()
  return kept ? unpacked(kept) : null
}

/** Caches the weather of a season for later runs. */
export const keepWeather = (ledger: Ledger, season: number, weather: WeatherFile): void =>
  weatherCache<KeptWeather>(ledger, season, 'hours')?.keep(packed(weather))

function packed({ hours: { table, changes }, measured, ...weather }: WeatherFile): KeptWeather {
  const { start, day, hour, minute, readings, length } = table
  return {
    weather,
    measured: [...measured],
    changes: { skipped: [...changes.skipped], repeated: [...changes.repeated] },
    length,
    columns: { start: bytesOf(start), day: bytesOf(day), hour: bytesOf(hour), minute: bytesOf(minute) },
    readings: Object.entries(readings).map(([key, values]) => [key as Measured, bytesOf(values)]),
  }
}

function unpacked({ weather, measured, changes, length, columns, readings }: KeptWeather): WeatherFile {
  const table: WeatherTable = {
    length,
    start: new Int32Array(bufferOf(columns.start)),
    day: new Int32Array(bufferOf(columns.day)),
    hour: new Int8Array(bufferOf(columns.hour)),
    minute: new Int8Array(bufferOf(columns.minute)),
    readings: Object.fromEntries(readings.map(([key, bytes]) => [key, new Float64Array(bufferOf(bytes))])),
  }
  const { skipped, repeated } = changes
  const hours = { table, changes: { skipped: new Set(skipped), repeated: new Set(repeated) } }
  return { ...weather, hours, measured: new Set(measured) }
}

const bytesOf = ({ buffer, byteOffset, byteLength }: NodeJS.TypedArray): string =>
  Buffer.from(buffer, byteOffset, byteLength).toString('base64')

/** The bytes in a new buffer, since 8-byte numbers must be aligned to 8 bytes. */
const bufferOf = (bytes: string): ArrayBuffer => new Uint8Array(Buffer.from(bytes, 'base64')).buffer
