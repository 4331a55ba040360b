import { basename, dirname, resolve } from 'node:path'
import { isoDate } from '../records/date.ts'
import { splitLine } from './csv-lines.ts'
import type { Finding } from './finding.ts'
import type { Ledger } from './ledger.ts'
import { readText } from './read-file.ts'
import { seasonOf } from './seasons.ts'
import { placeAt } from './source.ts'
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

/** What bringing in a station's export would add: only rows whose time isn't there yet. Writes nothing. */
export function planWeatherImport(ledger: Ledger, path: string, cwd = '.'): WeatherImport {
  const whole = resolve(cwd, path)
  const read = readText(dirname(whole), basename(whole))
  if (read.finding) return { seasons: [], findings: [{ ...read.finding, file: path }] }
  const source = table(ledger, { file: path, text: read.text })
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
  findings: Finding[]
}

function table(ledger: Ledger, at: { file: string; text: string }): Table {
  const { weather: mapping, timezone: zone } = ledger.vineyard
  const findings: Finding[] = []
  const {
    table: rows,
    separator,
    header,
  } = readRows(at.text, {
    mapping,
    zone,
    complain: ({ start, end }, { level = 'warning', ...fault }) =>
      findings.push({ ...placeAt(at, start, end), ...fault, level }),
  })
  return { ...at, separator, header, rows, findings }
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
    lines: target === null ? [source.header.join(source.separator)] : [],
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
    result.lines.push(lineFor(row, source, target))
    result.added++
    result.first ??= time
    result.last = time
  }
  return result
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

function sameReadings([one, at]: [WeatherTable, number], [other, place]: [WeatherTable, number]): boolean {
  return COMPARED.every((key) => {
    const [a, b] = [readingAt(one, key, at), readingAt(other, key, place)]
    return a === null || b === null || a === b
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
