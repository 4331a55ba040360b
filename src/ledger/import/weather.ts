import { dirname } from 'node:path'
import { addAll } from '../../records/add-all.ts'
import { isoDate } from '../../records/date.ts'
import { type Disk, realDisk } from '../read/disk.ts'
import type { Finding } from '../read/finding.ts'
import type { Ledger } from '../read/ledger.ts'
import { readText } from '../read/read-file.ts'
import { seasonOf } from '../read/seasons.ts'
import { placeAt } from '../read/source.ts'
import { MEASURED, type Measured, READINGS } from '../weather/columns.ts'
import { hourOfRow, readingAt, timeOfRow, type WeatherTable } from '../weather/table.ts'
import { whileLocked } from '../write/lock.ts'
import { makeFolder, replaceFile, standsAlready, WriteFailed } from '../write/write.ts'
import { readExport } from './outside.ts'
import type { Said } from './recognised.ts'
import { filledText, seasonForm } from './season-lines.ts'
import { type ExportTable, exportTable, importTable } from './weather-table.ts'

/** A reading that differs between ledger and export; the ledger's is kept. */
interface Differing {
  time: string
  what: Measured
  /** In rowbook's own unit. */
  stands: number
  read: number
  unit: string
}

/** What an import would add, or has added, to one season. */
export type SeasonImport = NonNullable<ReturnType<typeof planSeason>>

/**
 * What importing a station's export would add: rows for new times, and readings where those of a time
 * are empty. Writes nothing.
 * @param options `said` describes the export where its content doesn't show it
 */
export function planWeatherImport(
  ledger: Ledger,
  path: string,
  { cwd = '.', said = {} }: { cwd?: string; said?: Said } = {},
) {
  const read = readExport(cwd, path)
  const source = read.finding ?? exportTable(ledger, { file: path, text: read.text }, said)
  // The export as it was read is null where it can't be opened, or holds no times.
  if (!('rows' in source)) return { seasons: [], source: null, findings: [source] }
  const { rows } = source.hours
  const days = new Set(rows.day.subarray(0, rows.length))
  const years = new Set(Array.from(days, (day) => seasonOf(ledger.vineyard, isoDate(day))))
  const findings = [...source.findings]
  const seasons = [...years]
    .sort((a, b) => a - b)
    .flatMap((season) => planSeason(ledger, { season, source, findings }) ?? [])
  return { seasons, source, findings }
}

/**
 * Writes the planned import: each season's file whole or not at all.
 * @throws WriteFailed where the disk refuses, or where a file has changed since it was read; it names the seasons
 * written by then
 */
export function writeWeatherImport(
  { root }: Ledger,
  { seasons }: { seasons: readonly SeasonImport[] },
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
  { season, source, findings }: { season: number; source: ExportTable; findings: Finding[] },
) {
  const file = ledger.stations.get(season) ?? `seasons/${season}/weather.csv`
  const stands = ledger.stations.has(season) ? readText(ledger.root, file) : null
  if (stands?.finding) {
    findings.push(stands.finding)
    return null
  }
  const target = stands ? importTable(ledger, { file, text: stands.text }) : null
  const isDaily = source.rows.hour[0]! < 0
  if (target && target.rows.length > 0 && target.rows.hour[0]! < 0 !== isDaily) {
    findings.push({
      ...placeAt(source, 0, 1),
      level: 'error',
      name: 'bad-time',
      message: `its rows are ${isDaily ? 'of days' : 'of hours'}, and those of ${file} are not`,
      help: 'keep hourly and daily rows in files of their own',
    })
    return null
  }
  // A file with several rows an hour stays that way.
  const rows = target && isFine(target.rows) ? source.rows : source.hours.rows
  const form = seasonForm(ledger, { source, target, rows })
  const there = new Map<string, number[]>()
  for (let row = 0; target && row < target.rows.length; row++) {
    const time = timeOfRow(target.rows, row)
    there.set(time, [...(there.get(time) ?? []), row])
  }
  const added: number[] = []
  const pairs = new Map<number, number>()
  const apart: Differing[] = []
  let different = 0
  for (let row = 0; row < rows.length; row++) {
    if (seasonOf(ledger.vineyard, isoDate(rows.day[row]!)) !== season) continue
    const at = there.get(timeOfRow(rows, row))?.shift()
    if (target && at !== undefined) {
      const other = differing([target.rows, at], [rows, row])
      if (other.length > 0) different++
      addAll(apart, other)
      pairs.set(at, row)
    } else added.push(row)
  }
  const lines = added.map(form.line)
  const always = lines.length > 0
  const filling = target && filledText(target, { rows, pairs, form, always })
  const filled = filling?.filled ?? 0
  const before = filling ? filling.text : `${form.head}\n`
  const gap = before.endsWith('\n') || !always ? '' : '\n'
  const [first, last] = [added[0], added.at(-1)].map((row) =>
    row === undefined ? null : timeOfRow(rows, row),
  )
  return {
    season,
    /** Relative to the ledger. */
    file,
    /** Whether the import creates the file. */
    isNew: target === null,
    added: lines.length,
    /** Rows already in the file. */
    known: pairs.size,
    /** Rows already there in which an empty reading is filled. */
    filled,
    /** Headings of new columns. */
    columns: always || filled > 0 ? form.header.slice(form.header.length - form.isNew.length) : [],
    /** Rows already there with different readings, left as they are. */
    different,
    differing: apart,
    first: first!,
    last: last!,
    /** The lines to add. */
    lines: target ? lines : [form.head, ...lines],
    /** The file's text when it was read; null where there was none. */
    stood: stands?.text ?? null,
    /** The file's new text. */
    text: `${before}${gap}${lines.map((line) => `${line}\n`).join('')}`,
  }
}

/** Slightly more than half of the last digit of a converted reading. */
const WRITTEN = 0.0051

/** The readings that differ between two rows of the same time. */
function differing([one, at]: At, [other, place]: At): Differing[] {
  return MEASURED.flatMap((what) => {
    const [stands, read] = [readingAt(one, what, at), readingAt(other, what, place)]
    if (stands === null || read === null || Math.abs(stands - read) <= WRITTEN) return []
    return [{ time: timeOfRow(one, at), what, stands, read, unit: READINGS[what].unit }]
  })
}

type At = readonly [table: WeatherTable, row: number]

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
