import type { Ledger } from '../read/ledger.ts'
import type { Measured } from './columns.ts'
import type { WeatherTable } from './table.ts'
import type { WeatherFile } from './weather-file.ts'

/** A weather file as cached JSON: numbers as raw bytes, which are read many times faster. */
interface KeptWeather {
  /** The site's settings that affect how the file is read: columns, clock, season. */
  site: string
  weather: Omit<WeatherFile, 'hours' | 'measured'>
  measured: Measured[]
  changes: { skipped: number[]; repeated: number[] }
  length: number
  columns: Record<'start' | 'day' | 'hour' | 'minute', string>
  readings: [Measured, string][]
}

/** The weather of a season cached by an earlier run, if its file and the site are unchanged; else null. */
export function keptWeather(ledger: Ledger, season: number): WeatherFile | null {
  const { file, text, site } = sourceOf(ledger, season)
  const [kept] = (text === undefined ? null : ledger.reader.cache?.find(file, text, 'hours')) ?? []
  return kept && (kept as KeptWeather).site === site ? unpacked(kept as KeptWeather) : null
}

/** Caches the weather of a season for later runs. */
export function keepWeather(ledger: Ledger, season: number, weather: WeatherFile): void {
  const { file, text, site } = sourceOf(ledger, season)
  if (text !== undefined) ledger.reader.cache?.keep(file, text, [packed(site, weather)], 'hours')
}

function sourceOf({ stations, reader, vineyard }: Ledger, season: number) {
  const file = stations.get(season)
  const text = file === undefined || !reader.cache ? undefined : reader.read(file).text
  return { file: file ?? '', text, site: vineyard.source.at.text }
}

function packed(site: string, { hours: { table, changes }, measured, ...weather }: WeatherFile): KeptWeather {
  const { start, day, hour, minute, readings, length } = table
  return {
    site,
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
