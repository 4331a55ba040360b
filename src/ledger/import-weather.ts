import { basename, dirname, resolve } from 'node:path'
import { isoDate } from '../records/date.ts'
import { csvLines, separatorOf, splitLine } from './csv-lines.ts'
import type { Finding } from './finding.ts'
import type { Ledger } from './ledger.ts'
import { readText } from './read-file.ts'
import { seasonOf } from './seasons.ts'
import { placeAt } from './source.ts'
import { readRows, type StationRow } from './weather-rows.ts'
import { replaceFile } from './write.ts'

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
}

export interface WeatherImport {
  seasons: SeasonImport[]
  /** What is wrong with the file to be brought in, and what stops the import. */
  findings: Finding[]
}

/** What bringing in a station's export would add: only rows whose time isn't there yet. Writes nothing. */
export function planWeatherImport(ledger: Ledger, path: string, cwd = '.'): WeatherImport {
  const whole = resolve(cwd, path)
  const read = readText(dirname(whole), basename(whole))
  if (read.finding) return { seasons: [], findings: [{ ...read.finding, file: path }] }
  const source = table(ledger, { file: path, text: read.text })
  const findings = source.findings
  const bySeason = new Map<number, StationRow[]>()
  for (const row of source.rows) {
    const season = seasonOf(ledger.vineyard, isoDate(row.day))
    bySeason.set(season, [...(bySeason.get(season) ?? []), row])
  }
  const seasons = [...bySeason].sort(([a], [b]) => a - b)
  return {
    seasons: seasons.flatMap(([season, rows]) => planSeason(ledger, { season, rows, source }) ?? []),
    findings,
  }
}

/** Writes what was planned: each season's file whole or not at all, what stood in it unchanged before the new rows. */
export function writeWeatherImport(ledger: Ledger, { seasons }: WeatherImport): void {
  for (const { file, lines, isNew, added } of seasons) {
    if (added === 0) continue
    const before = isNew ? '' : (readText(ledger.root, file).text ?? '')
    const gap = before === '' || before.endsWith('\n') ? '' : '\n'
    replaceFile(ledger.root, file, `${before}${gap}${lines.join('\n')}\n`)
  }
}

interface Table {
  file: string
  text: string
  separator: string
  header: string[]
  rows: StationRow[]
  findings: Finding[]
}

function table(ledger: Ledger, at: { file: string; text: string }): Table {
  const { weather: mapping, timezone: zone } = ledger.vineyard
  const findings: Finding[] = []
  const { rows } = readRows(at.text, {
    mapping,
    zone,
    complain: ({ start, end }, { level = 'warning', ...fault }) =>
      findings.push({ ...placeAt(at, start, end), ...fault, level }),
  })
  const first = csvLines(at.text).next()
  const line = first.done ? '' : first.value.text
  const separator = mapping?.separator === 'tab' ? '\t' : (mapping?.separator ?? separatorOf(line))
  const header = splitLine(line, separator).map((name) => name.trim())
  return { ...at, separator, header, rows, findings }
}

function planSeason(
  ledger: Ledger,
  { season, rows, source }: { season: number; rows: readonly StationRow[]; source: Table },
): SeasonImport | null {
  const file = ledger.weather.get(season) ?? `seasons/${season}/weather.csv`
  const stands = ledger.weather.has(season) ? readText(ledger.root, file) : null
  if (stands?.finding) {
    source.findings.push(stands.finding)
    return null
  }
  const target = stands ? table(ledger, { file, text: stands.text }) : null
  const missing = target?.header.filter((name) => !source.header.includes(name)) ?? []
  if (target && missing.length === target.header.length) {
    source.findings.push({
      ...placeAt(source, 0, 1),
      name: 'unknown-column',
      level: 'error',
      message: `none of the columns of ${file} are in it: ${target.header.join(', ')}`,
      help: 'export the same columns, or begin a new file for the season',
    })
    return null
  }
  const known = countByTime(target?.rows ?? [])
  const result: SeasonImport = {
    season,
    file,
    isNew: target === null,
    added: 0,
    known: 0,
    different: 0,
    first: null,
    last: null,
    lines: target === null ? [source.header.join(source.separator)] : [],
  }
  for (const row of rows) {
    const there = known.get(timeOf(row))?.shift()
    if (there) {
      result.known++
      if (!sameReadings(there, row)) result.different++
      continue
    }
    result.lines.push(lineFor(row, source, target))
    result.added++
    result.first ??= timeOf(row)
    result.last = timeOf(row)
  }
  return result
}

function timeOf({ day, hour, minute }: StationRow): string {
  const two = (value: number) => String(value).padStart(2, '0')
  return hour < 0 ? isoDate(day) : `${isoDate(day)} ${two(hour)}:${two(minute)}`
}

function countByTime(rows: readonly StationRow[]): Map<string, StationRow[]> {
  const byTime = new Map<string, StationRow[]>()
  for (const row of rows) {
    const key = timeOf(row)
    const same = byTime.get(key)
    if (same) same.push(row)
    else byTime.set(key, [row])
  }
  return byTime
}

const COMPARED = ['temperature', 'humidity', 'rain', 'wetness', 'wind', 'min', 'max'] as const

const sameReadings = (one: StationRow, other: StationRow) =>
  COMPARED.every((key) => one[key] === null || other[key] === null || one[key] === other[key])

/** The row's line with its cells in the order of the target's columns; as it stands where there is no target. */
function lineFor(row: StationRow, source: Table, target: Table | null): string {
  const stop = source.text.indexOf('\n', row.start)
  const line = source.text.slice(row.start, stop < 0 ? source.text.length : stop).replace(/\r$/, '')
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
