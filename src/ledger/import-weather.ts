import { basename, dirname, resolve } from 'node:path'
import { isoDate } from '../records/date.ts'
import { splitLine } from './csv-lines.ts'
import type { Finding } from './finding.ts'
import type { Ledger } from './ledger.ts'
import { readText } from './read-file.ts'
import { seasonOf } from './seasons.ts'
import { placeAt } from './source.ts'
import type { Measured, WeatherMapping } from './weather-columns.ts'
import { lineWriter, newForm } from './weather-line.ts'
import { readRows } from './weather-rows.ts'
import { readingAt, type WeatherTable } from './weather-table.ts'
import { replaceFile, standsAlready } from './write.ts'

/** What an import would add to, or has added to, one season. */
export interface SeasonImport {
  season: number
  /** Relative to the ledger. */
  file: string
  /** Whether the file is made by it. */
  isNew: boolean
  added: number
  /** Rows that stand there already. */
  known: number
  /** Rows that stand there with other readings; they are left as they are. */
  different: number
  first: string | null
  last: string | null
  /** The lines to be added, as they will stand. */
  lines: string[]
  /** What the file held when it was looked at; null where there was none. */
  stood: string | null
}

export interface WeatherImport {
  seasons: SeasonImport[]
  /** What is wrong with the file to be brought in, and what stops the import. */
  findings: Finding[]
}

/**
 * What bringing in a station's export would add: only rows whose time isn't there yet. Writes nothing.
 * @param options `how` the export is written, where not as `vineyard.yaml` says; its rows are then turned into those
 * of the season's file
 */
export function planWeatherImport(
  ledger: Ledger,
  path: string,
  { cwd = '.', how }: { cwd?: string; how?: WeatherMapping | undefined } = {},
): WeatherImport {
  const whole = resolve(cwd, path)
  const read = readText(dirname(whole), basename(whole))
  if (read.finding) return { seasons: [], findings: [{ ...read.finding, file: path }] }
  const source = table(ledger, { file: path, text: read.text }, how)
  const findings = source.findings
  const bySeason = new Map<number, number[]>()
  for (let row = 0; row < source.rows.length; row++) {
    const season = seasonOf(ledger.vineyard, isoDate(source.rows.day[row]!))
    const same = bySeason.get(season)
    if (same) same.push(row)
    else bySeason.set(season, [row])
  }
  const seasons = [...bySeason].sort(([a], [b]) => a - b)
  return {
    seasons: seasons.flatMap(([season, rows]) => planSeason(ledger, { season, rows, source }) ?? []),
    findings,
  }
}

/**
 * Writes what was planned: each season's file whole or not at all, what stood in it unchanged before the new rows.
 * @throws WriteFailed where the disk refuses, or where the file is no longer what was looked at
 */
export function writeWeatherImport({ root }: Ledger, { seasons }: WeatherImport): void {
  for (const { file, lines, stood, added } of seasons) {
    if (added === 0) continue
    const before = stood ?? ''
    const gap = before === '' || before.endsWith('\n') ? '' : '\n'
    const isAsSeen = () => (standsAlready(root, file) ? readText(root, file).text === stood : stood === null)
    replaceFile(root, file, `${before}${gap}${lines.join('\n')}\n`, { isAsSeen })
  }
}

interface Table {
  file: string
  text: string
  separator: string
  header: string[]
  rows: WeatherTable
  measured: Set<Measured>
  /** Whether it is written in a way of its own, so that its lines can't stand as they are. */
  isForeign: boolean
  findings: Finding[]
}

function table(ledger: Ledger, at: { file: string; text: string }, how?: WeatherMapping): Table {
  const { weather, timezone: zone } = ledger.vineyard
  const mapping = how ? merged(weather, how) : weather
  const findings: Finding[] = []
  const {
    table: rows,
    columns,
    separator,
    header,
  } = readRows(at.text, {
    mapping,
    zone,
    complain: ({ start, end }, { level = 'warning', ...fault }) =>
      findings.push({ ...placeAt(at, start, end), ...fault, level }),
  })
  // What was said of this file must hold; a column that vineyard.yaml maps may be missing in an export.
  for (const { at: place, ...fault } of columns?.faults ?? [])
    if ('key' in place && isSaid(how, place.key)) findings.unshift({ ...placeAt(at, 0, 1), ...fault })
  const measured = new Set(columns?.measured.map(({ key }) => key))
  return { ...at, separator, header, rows, measured, isForeign: how !== undefined, findings }
}

function merged(weather: WeatherMapping = {}, how: WeatherMapping): WeatherMapping {
  return {
    ...weather,
    ...how,
    columns: { ...weather.columns, ...how.columns },
    units: { ...weather.units, ...how.units },
  }
}

function isSaid(how: WeatherMapping | undefined, [part, key]: string[]): boolean {
  const said = part === 'columns' ? how?.columns : how?.units
  return said !== undefined && key !== undefined && Object.hasOwn(said, key)
}

function planSeason(
  ledger: Ledger,
  { season, rows, source }: { season: number; rows: readonly number[]; source: Table },
): SeasonImport | null {
  const file = ledger.weather.get(season) ?? `seasons/${season}/weather.csv`
  const stands = ledger.weather.has(season) ? readText(ledger.root, file) : null
  if (stands?.finding) {
    source.findings.push(stands.finding)
    return null
  }
  const target = stands ? table(ledger, { file, text: stands.text }) : null
  const fault = target && unlike(source, target)
  if (fault) {
    source.findings.push({ ...placeAt(source, 0, 1), level: 'error', ...fault })
    return null
  }
  const { header, lineOf } = writerFor(ledger, source, target)
  const known = rowsByTime(target?.rows)
  const result: SeasonImport = {
    season,
    file,
    isNew: target === null,
    added: 0,
    known: 0,
    different: 0,
    first: null,
    last: null,
    lines: target === null ? [header] : [],
    stood: stands?.text ?? null,
  }
  for (const row of rows) {
    const time = timeOf(source.rows, row)
    const there = known.get(time)?.shift()
    if (target && there !== undefined) {
      result.known++
      if (!sameReadings([target.rows, there], [source.rows, row])) result.different++
      continue
    }
    result.lines.push(lineOf(row))
    result.added++
    result.first ??= time
    result.last = time
  }
  return result
}

/** Why rows of an export can't stand in a season's file; null where they can. */
function unlike(source: Table, target: Table): Pick<Finding, 'name' | 'message' | 'help'> | null {
  const isDaily = (rows: WeatherTable) => rows.hour[0]! < 0
  if (target.rows.length > 0 && source.rows.length > 0 && isDaily(target.rows) !== isDaily(source.rows))
    return {
      name: 'bad-time',
      message: `its rows are ${isDaily(source.rows) ? 'of days' : 'of hours'}, and those of ${target.file} are not`,
      help: 'keep hourly and daily rows in files of their own',
    }
  const shared = source.isForeign
    ? [...source.measured].some((key) => target.measured.has(key))
    : target.header.some((name) => source.header.includes(name))
  if (shared) return null
  return {
    name: 'unknown-column',
    message: `none of the columns of ${target.file} are in it: ${target.header.join(', ')}`,
    help: 'export the same columns, say with --columns how they are named, or begin a new file for the season',
  }
}

/** How the rows are written: as they stand, or, from a file of another form, cell by cell. */
function writerFor(
  ledger: Ledger,
  source: Table,
  target: Table | null,
): { header: string; lineOf: (row: number) => string } {
  if (!source.isForeign)
    return { header: source.header.join(source.separator), lineOf: (row) => lineFor(row, source, target) }
  const mapping = ledger.vineyard.weather ?? {}
  const form = target
    ? { header: target.header, separator: target.separator, mapping }
    : newForm(mapping, { isDaily: source.rows.hour[0]! < 0, measured: source.measured })
  const write = lineWriter(form)
  return { header: form.header.join(form.separator), lineOf: (row) => write(source.rows, row) }
}

function timeOf({ day, hour, minute }: WeatherTable, row: number): string {
  const two = (value: number) => String(value).padStart(2, '0')
  const date = isoDate(day[row]!)
  return hour[row]! < 0 ? date : `${date} ${two(hour[row]!)}:${two(minute[row]!)}`
}

function rowsByTime(table: WeatherTable | undefined): Map<string, number[]> {
  const byTime = new Map<string, number[]>()
  for (let row = 0; row < (table?.length ?? 0); row++) {
    const key = timeOf(table!, row)
    const same = byTime.get(key)
    if (same) same.push(row)
    else byTime.set(key, [row])
  }
  return byTime
}

const COMPARED = ['temperature', 'humidity', 'rain', 'wetness', 'wind', 'min', 'max'] as const

/** Half of the last digit to which a converted reading is written, and a little. */
const WRITTEN = 0.0051

function sameReadings([one, at]: [WeatherTable, number], [other, place]: [WeatherTable, number]): boolean {
  return COMPARED.every((key) => {
    const [a, b] = [readingAt(one, key, at), readingAt(other, key, place)]
    return a === null || b === null || Math.abs(a - b) <= WRITTEN
  })
}

/** The row's line with its cells in the order of the target's columns; as it stands where there is no target. */
function lineFor(row: number, source: Table, target: Table | null): string {
  const start = source.rows.start[row]!
  const stop = source.text.indexOf('\n', start)
  const line = source.text.slice(start, stop < 0 ? source.text.length : stop).replace(/\r$/, '')
  if (!target || (target.separator === source.separator && target.header.join() === source.header.join()))
    return line
  const cells = splitLine(line, source.separator)
  return target.header
    .map((name) => {
      const cell = (cells[source.header.indexOf(name)] ?? '').trim()
      return cell.includes(target.separator) || cell.includes('"') ? `"${cell.replaceAll('"', '""')}"` : cell
    })
    .join(target.separator)
}
