import { distance } from 'fastest-levenshtein'
import type { Vineyard } from '../../records/kinds/vineyard.ts'
import { convert } from '../../records/units.ts'

/** How a station writes its file: `weather:` in `vineyard.yaml`. */
export type WeatherMapping = NonNullable<Vineyard['weather']>

export const MEASURED = ['temperature', 'humidity', 'rain', 'wetness', 'wind', 'min', 'max', 'mean'] as const
export type Measured = (typeof MEASURED)[number]
type WeatherKey = 'time' | 'date' | Measured

interface Reading {
  /** Header of the column where nothing else is mapped. */
  name: string
  unit: string
  /** Units that a mapping may name. */
  units: readonly string[]
  low: number
  high: number
}

const degrees = (name: string): Reading => ({ name, unit: 'C', units: ['C', 'F'], low: -50, high: 60 })

/** Readings of a station's file: names, our unit, and the possible range in our unit. */
export const READINGS: Record<Measured, Reading> = {
  temperature: degrees('temperature_c'),
  min: degrees('min_c'),
  max: degrees('max_c'),
  mean: degrees('mean_c'),
  humidity: { name: 'humidity_pct', unit: '%', units: ['%', 'share'], low: 0, high: 100 },
  rain: { name: 'rain_mm', unit: 'mm', units: ['mm', 'cm', 'in'], low: 0, high: 1000 },
  wetness: { name: 'wetness_min', unit: 'min', units: ['min', 's', 'h'], low: 0, high: 1440 },
  wind: { name: 'wind_ms', unit: 'm/s', units: ['m/s', 'km/h', 'mph', 'kn'], low: 0, high: 110 },
}

/**
 * Units that stations use in addition to a ledger's: humidity from 0 to 1; knots (1852 m an hour, exact by definition).
 */
const FACTORS: ReadonlyMap<string, number> = new Map([
  ['share', 100],
  ['kn', 1852 / 3600],
])

/** Most rain of one hour, mm: about the greatest on record (401 mm, Shangdi, China, 1975; from memory). */
const MOST_RAIN_OF_AN_HOUR = 400

/** The possible range of an hourly or daily reading, in our unit. */
export function possible(key: Measured, { hourly }: { hourly: boolean }): { low: number; high: number } {
  const { low, high } = READINGS[key]
  return { low, high: hourly && key === 'rain' ? MOST_RAIN_OF_AN_HOUR : high }
}

const NAMES: Record<WeatherKey, string> = {
  time: 'time',
  date: 'date',
  ...(Object.fromEntries(MEASURED.map((key) => [key, READINGS[key].name])) as Record<Measured, string>),
}
const KEYS = Object.keys(NAMES) as WeatherKey[]

/** The index of a column, and the conversion of its numbers: `value * factor + shift`. */
export interface Column {
  key: Measured
  index: number
  factor: number
  shift: number
}

interface ColumnFault {
  /** The key under `weather:` that is wrong, or the column of the header (from 0). */
  at: { key: string[] } | { header: number }
  name: string
  level: 'error' | 'warning'
  message: string
  help: string
}

export interface Columns {
  time: number | null
  date: number | null
  measured: Column[]
  faults: ColumnFault[]
}

/** Finds the columns in a header by the mapping, else by the usual names. */
export function findColumns(header: readonly string[], mapping: WeatherMapping = {}): Columns {
  const faults: ColumnFault[] = []
  const tell = (at: ColumnFault['at'], name: string, message: string, help: string) =>
    faults.push({ at, name, level: 'key' in at ? 'error' : 'warning', message, help })
  const known = new Map(Object.entries(mapping.columns ?? {}))
  for (const key of [...known.keys(), ...Object.keys(mapping.units ?? {})])
    if (!KEYS.includes(key as WeatherKey)) {
      const help = nearestOf(key, KEYS) ?? `known here: ${KEYS.join(', ')}`
      const part = known.has(key) ? 'columns' : 'units'
      tell({ key: [part, key] }, 'unknown-key', `\`${key}\` is nothing that weather is read for`, help)
    }
  const places = new Map<WeatherKey, number>()
  for (const key of KEYS) {
    const mapped = known.get(key)
    const index = indexOf(header, mapped ?? NAMES[key])
    if (index >= 0) places.set(key, index)
    else if (mapped !== undefined) {
      const used = new Set(places.values())
      const free = header.filter((_, at) => !used.has(at))
      const help = nearestOf(mapped, free) ?? `its columns: ${header.join(', ')}`
      const message = `the weather file has no column \`${mapped}\``
      tell({ key: ['columns', key] }, 'unknown-column', message, help)
    }
  }
  const used = new Set(places.values())
  const free = KEYS.filter((key) => !places.has(key)).map((key) => NAMES[key])
  for (const [index, name] of header.entries()) {
    const meant = used.has(index) || name.length <= 3 ? null : nearestOf(name, free)
    const help = `${meant} If so, name it so, or map it under \`weather: columns:\``
    if (meant) tell({ header: index }, 'unknown-column', `nothing is read from column \`${name}\``, help)
  }
  const measured = MEASURED.flatMap((key) => {
    const index = places.get(key)
    if (index === undefined) return []
    const { unit, units } = READINGS[key]
    const from = mapping.units && Object.hasOwn(mapping.units, key) ? mapping.units[key]! : unit
    const isKnown = units.includes(from)
    if (!isKnown) {
      const help = `units accepted: ${units.join(', ')}`
      tell({ key: ['units', key] }, 'unknown-unit', `\`${from}\` is no unit for ${key}`, help)
    }
    return [{ key, index, ...(isKnown ? scaleOf(from, unit) : { factor: 1, shift: 0 }) }]
  })
  return { time: places.get('time') ?? null, date: places.get('date') ?? null, measured, faults }
}

function scaleOf(from: string, unit: string): Pick<Column, 'factor' | 'shift'> {
  const own = from === unit ? 1 : FACTORS.get(from)
  if (own !== undefined) return { factor: own, shift: 0 }
  const shift = convert(0, from, unit)
  return { factor: convert(1, from, unit) - shift, shift }
}

function indexOf(header: readonly string[], name: string): number {
  const exact = header.indexOf(name)
  return exact >= 0 ? exact : header.findIndex((one) => one.toLowerCase() === name.toLowerCase())
}

function nearestOf(word: string, known: readonly string[]): string | null {
  const ranked = known.map((name) => ({ name, off: distance(name.toLowerCase(), word.toLowerCase()) }))
  const best = ranked.sort((a, b) => a.off - b.off)[0]
  return best && best.off <= Math.max(2, Math.floor(word.length / 3))
    ? `did you mean \`${best.name}\`?`
    : null
}
