import { dirname } from 'node:path'
import { isoDate } from '../../records/date.ts'
import { type Disk, realDisk } from '../read/disk.ts'
import type { Finding } from '../read/finding.ts'
import type { Ledger } from '../read/ledger.ts'
import { readText } from '../read/read-file.ts'
import { seasonOf } from '../read/seasons.ts'
import { placeAt } from '../read/source.ts'
import { hourOfRow, type WeatherTable } from '../weather/table.ts'
import { whileLocked } from '../write/lock.ts'
import { makeFolder, replaceFile, standsAlready, WriteFailed } from '../write/write.ts'
import { type Differing, differing, filledText, type Pair } from './fill.ts'
import { readExport } from './outside.ts'
import type { Said } from './recognised.ts'
import { type ExportTable, exportTable, importTable, lineOf, seasonForm, unlike } from './weather-table.ts'

/** What an import would add, or has added, to one season. */
export interface SeasonImport {
  season: number
  /** Relative to the ledger. */
  file: string
  /** Whether the import creates the file. */
  isNew: boolean
  added: number
  /** Rows already in the file. */
  known: number
  /** Rows already there in which an empty reading is filled. */
  filled: number
  /** Headings of new columns. */
  columns: string[]
  /** Rows already there with different readings, left as they are. */
  different: number
  differing: Differing[]
  first: string | null
  last: string | null
  /** The lines to add. */
  lines: string[]
  /** The file's text when it was read; null where there was none. */
  stood: string | null
  /** The file's new text. */
  text: string
}

interface WeatherImport {
  seasons: SeasonImport[]
  /** The export as it was read; null where it can't be opened. */
  source: ExportTable | null
  /** What is wrong with the export, and what stops the import. */
  findings: Finding[]
}

/**
 * What importing a station's export would add: rows for new times, and readings where those of a time
 * are empty. Writes nothing.
 * @param options `said` describes the export where its content doesn't show it
 */
export function planWeatherImport(
  ledger: Ledger,
  path: string,
  { cwd = '.', said = {} }: { cwd?: string; said?: Said } = {},
): WeatherImport {
  const read = readExport(cwd, path)
  if (read.finding) return { seasons: [], source: null, findings: [read.finding] }
  const source = exportTable(ledger, { file: path, text: read.text }, said)
  const findings = source.findings
  const { rows } = source.hours
  const years = new Set<number>()
  for (let row = 0; row < rows.length; row++) years.add(seasonOf(ledger.vineyard, isoDate(rows.day[row]!)))
  const seasons = [...years].sort((a, b) => a - b)
  return {
    seasons: seasons.flatMap((season) => planSeason(ledger, { season, source }) ?? []),
    source,
    findings,
  }
}

/**
 * Writes the planned import: each season's file whole or not at all.
 * @throws WriteFailed where the disk refuses, or where a file has changed since it was read; it names the seasons
 * written by then
 */
export function writeWeatherImport(
  { root }: Ledger,
  { seasons }: Pick<WeatherImport, 'seasons'>,
  disk: Disk = realDisk,
): void {
  const written: string[] = []
  for (const { file, text, stood } of seasons) {
    if (text === stood) continue
    const isAsSeen = () => (standsAlready(root, file) ? readText(root, file).text === stood : stood === null)
    try {
      const folder = makeFolder(root, dirname(file), disk)
      whileLocked(folder, file, () => replaceFile(root, file, text, { disk, isAsSeen }), disk)
    } catch (error) {
      if (!(error instanceof WriteFailed) || written.length === 0) throw error
      throw new WriteFailed(
        `${error.message}; written before that: ${written.join(', ')}`,
        `${error.help}. Import the file again: what stands already is not added twice`,
      )
    }
    written.push(file)
  }
}

function planSeason(
  ledger: Ledger,
  { season, source }: { season: number; source: ExportTable },
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
  // A file with several rows an hour stays that way.
  const rows = target && isFine(target.rows) ? source.rows : source.hours.rows
  const form = seasonForm(ledger, source, target)
  const write = lineOf(source, target, { form, rows })
  const there = rowsByTime(target?.rows)
  const lines: string[] = []
  const pairs: Pair[] = []
  const apart: Differing[] = []
  const times: string[] = []
  let known = 0
  let different = 0
  for (let row = 0; row < rows.length; row++) {
    if (seasonOf(ledger.vineyard, isoDate(rows.day[row]!)) !== season) continue
    const time = timeOf(rows, row)
    const at = there.get(time)?.shift()
    if (target && at !== undefined) {
      known++
      const other = differing([target.rows, at], [rows, row], time)
      if (other.length > 0) different++
      for (const one of other) apart.push(one)
      pairs.push([at, row])
    } else {
      lines.push(write(row))
      times.push(time)
    }
  }
  const filling = target && filledText(target, rows, { pairs, form, always: lines.length > 0 })
  const isAdding = lines.length > 0 || (filling?.filled ?? 0) > 0
  const before = filling ? filling.text : `${headOf(source, rows, form)}\n`
  const gap = before.endsWith('\n') || lines.length === 0 ? '' : '\n'
  return {
    season,
    file,
    isNew: target === null,
    added: lines.length,
    known,
    filled: filling?.filled ?? 0,
    columns: isAdding ? form.header.slice(form.header.length - form.isNew.length) : [],
    different,
    differing: apart,
    first: times[0] ?? null,
    last: times.at(-1) ?? null,
    lines: target ? lines : [headOf(source, rows, form), ...lines],
    stood: stands?.text ?? null,
    text: `${before}${gap}${lines.map((line) => `${line}\n`).join('')}`,
  }
}

/** The heading of a new file: copied where its lines are copied too. */
const headOf = (
  source: ExportTable,
  rows: WeatherTable,
  { header, separator }: { header: readonly string[]; separator: string },
) =>
  source.isForeign || rows !== source.rows ? header.join(separator) : source.header.join(source.separator)

/** Whether an hour has several rows. */
function isFine(rows: WeatherTable): boolean {
  for (let row = 1; row < rows.length; row++)
    if (
      rows.hour[row]! >= 0 &&
      hourOfRow(rows, row) === hourOfRow(rows, row - 1) &&
      rows.minute[row]! > rows.minute[row - 1]!
    )
      return true
  return false
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
