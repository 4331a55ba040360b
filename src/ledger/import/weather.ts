import { basename, dirname, resolve } from 'node:path'
import { isoDate } from '../../records/date.ts'
import { realDisk } from '../read/disk.ts'
import type { Finding } from '../read/finding.ts'
import type { Ledger } from '../read/ledger.ts'
import { readText } from '../read/read-file.ts'
import { seasonOf } from '../read/seasons.ts'
import { placeAt } from '../read/source.ts'
import type { WeatherMapping } from '../weather/columns.ts'
import { readingAt, type WeatherTable } from '../weather/table.ts'
import { whileLocked } from '../write/lock.ts'
import { makeFolder, replaceFile, standsAlready } from '../write/write.ts'
import { type ImportTable, importTable, unlike, writerFor } from './weather-table.ts'

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

interface WeatherImport {
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
  const source = importTable(ledger, { file: path, text: read.text }, how)
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
    const folder = makeFolder(root, dirname(file), realDisk)
    whileLocked(folder, file, () =>
      replaceFile(root, file, `${before}${gap}${lines.join('\n')}\n`, { isAsSeen }),
    )
  }
}

function planSeason(
  ledger: Ledger,
  { season, rows, source }: { season: number; rows: readonly number[]; source: ImportTable },
): SeasonImport | null {
  const file = ledger.stations.get(season) ?? `seasons/${season}/weather.csv`
  const stands = ledger.stations.has(season) ? readText(ledger.root, file) : null
  if (stands?.finding) {
    source.findings.push(stands.finding)
    return null
  }
  const target = stands ? importTable(ledger, { file, text: stands.text }) : null
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
