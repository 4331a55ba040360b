import { basename, dirname, resolve } from 'node:path'
import { addAll } from '../../records/add-all.ts'
import { dayOf, isoDate } from '../../records/date.ts'
import { byPlace, type Finding } from '../read/finding.ts'
import type { Ledger } from '../read/ledger.ts'
import { type ReadResult, readText } from '../read/read-file.ts'
import { seasonSpan } from '../read/seasons.ts'
import { placeAt, placeOf } from '../read/source.ts'
import type { Columns, WeatherMapping } from './columns.ts'
import { daysOfRows } from './days.ts'
import { hoursOf } from './hours.ts'
import { keepWeather, keptWeather, type WeatherFile } from './kept-weather.ts'
import { type Complain, readRows } from './rows.ts'
import { emptyTable, hourOfRow, type WeatherTable } from './table.ts'
import { reportStuckSensor, reportUnlikely } from './unlikely.ts'

export type { WeatherMapping } from './columns.ts'
export type { WeatherFile } from './kept-weather.ts'

/**
 * The weather of a season; for an unchanged file it comes from the cache.
 * @param options `keep: false` leaves the hours out of the cache.
 */
export const readWeather = (ledger: Ledger, season: number, { keep = true } = {}): WeatherFile =>
  shared(ledger, season) ?? keptWeather(ledger, season) ?? readSeason(ledger, season, keep)

function readSeason(ledger: Ledger, season: number, keep = false): WeatherFile {
  const file = ledger.stations.get(season)
  const { vineyard } = ledger
  if (file === undefined) return noWeather(null)
  const weather = readFrom(ledger.root, file, {
    read: (name) => ledger.reader.read(name),
    mapping: vineyard.weather,
    zone: vineyard.timezone,
    span: seasonSpan(vineyard, season),
    keyPlace: (path) => placeOf(vineyard.source, ['weather', ...path]),
  })
  if (keep) keepWeather(ledger, season, weather)
  return weather
}

/** The same, from another revision of the ledger with the same site and the same file. */
function shared(ledger: Ledger, season: number): WeatherFile | null {
  const file = ledger.stations.get(season)
  const kept = ledger.reader.shared?.weather
  const text = file === undefined || !kept ? undefined : ledger.reader.read(file).text
  if (!kept || text === undefined) return null
  const key = [season, ledger.vineyard.source.at.text, text].join('\n')
  const weather = (kept.get(key) as WeatherFile | undefined) ?? readSeason(ledger, season)
  kept.set(key, weather)
  return weather
}

/**
 * Reads a weather file anywhere on the disk, as named by the user.
 * @param options its mapping (default: the usual names)
 */
export function readWeatherFile(
  path: string,
  options: { mapping?: WeatherMapping | undefined; cwd?: string } = {},
): WeatherFile {
  const whole = resolve(options.cwd ?? '.', path)
  const weather = readFrom(dirname(whole), basename(whole), options)
  const findings = weather.findings.map((finding) => ({ ...finding, file: path }))
  return { ...weather, file: path, findings }
}

/** Whether nothing at all could be read from the file; its findings say why. */
export function isUnreadable(weather: WeatherFile): boolean {
  return isEmpty(weather) && weather.findings.some(({ level }) => level === 'error')
}

/** Whether it has no hours and no days. */
export const isEmpty = ({ hours, days }: WeatherFile) => hours.table.length === 0 && days.length === 0

interface How {
  /** Reads a file of the ledger, where its source isn't the disk. */
  read?: (file: string) => ReadResult
  mapping?: WeatherMapping | undefined
  zone?: string | undefined
  /** Days outside of these are left out. */
  span?: { first: string; last: string }
  /** The place of a key under `weather:`. */
  keyPlace?: (path: string[]) => { file: string; line: number; column: number; length: number }
}

/** Most findings of one name: more say nothing new. */
const MOST_ALIKE = 20
const LONGEST_DAYS = 4000

function readFrom(root: string, file: string, how: How): WeatherFile {
  const { text, finding } = how.read ? how.read(file) : readText(root, file)
  if (finding) return noWeather(file, [finding])
  const { complain, findings } = collector({ file, text })
  const { table, columns } = readRows(text, { mapping: how.mapping, zone: how.zone, complain })
  addAll(findings, keyFaults(columns, file, how))
  const order = inOrder(table, inSpan(table, { span: how.span, complain }), complain)
  const form = order.length === 0 ? null : table.hour[order[0]!]! < 0 ? 'daily' : 'hourly'
  const own = order.filter((row) => table.hour[row]! < 0 === (form === 'daily'))
  if (own.length < order.length) reportOthers(table, order, { form, complain })
  if (form === 'hourly') reportStuckSensor(table, own, complain)
  if (form) reportUnlikely(table, { order: own, form, complain })
  const hours = hoursOf(table, form === 'hourly' ? own : [], { zone: how.zone, complain })
  const days = daysOfRows(table, form === 'daily' ? own : [], { complain })
  const measured = new Set(columns?.measured.map(({ key }) => key))
  return { file, form, rows: table.length, hours, days, measured, findings: findings.sort(byPlace) }
}

function noWeather(file: string | null, findings: Finding[] = []): WeatherFile {
  const hours = {
    table: emptyTable(0, []),
    changes: { skipped: new Set<number>(), repeated: new Set<number>() },
  }
  return { file, form: null, rows: 0, hours, days: [], measured: new Set(), findings }
}

function collector(at: { file: string; text: string }): { complain: Complain; findings: Finding[] } {
  const findings: Finding[] = []
  const counts = new Map<string, number>()
  const complain: Complain = ({ start, end }, { level = 'warning', ...fault }) => {
    const count = (counts.get(fault.name) ?? 0) + 1
    counts.set(fault.name, count)
    const message =
      count > MOST_ALIKE ? `more of the same (${fault.name}) from here on, not listed` : fault.message
    if (count <= MOST_ALIKE + 1) findings.push({ ...placeAt(at, start, end), ...fault, message, level })
  }
  return { complain, findings }
}

function keyFaults(columns: Columns | null, file: string, how: How): Finding[] {
  return (columns?.faults ?? []).flatMap(({ at, ...fault }) => {
    if (!('key' in at)) return []
    const place = how.keyPlace?.(at.key) ?? { file, line: 1, column: 1, length: 1 }
    return [{ ...place, ...fault }]
  })
}

/** The rows whose day is in the span; without one, those within ten years of the first. */
function inSpan(
  table: WeatherTable,
  { span, complain }: { span: How['span']; complain: Complain },
): number[] {
  const tell = (row: number, message: string) =>
    complain(dateSpan(table, row), {
      name: 'wrong-season',
      message,
      help: 'correct the date, or move the row to the file of its season',
    })
  const start = table.day[0] ?? 0
  const first = span ? dayOf(span.first) : start - LONGEST_DAYS
  const last = span ? dayOf(span.last) : start + LONGEST_DAYS
  const isInside = (row: number) => table.day[row]! >= first && table.day[row]! <= last
  const rows = Array.from({ length: table.length }, (_, row) => row)
  const kept = rows.filter(isInside)
  if (span && kept.length === 0 && rows.length > 0) {
    const [from, to] = [start, table.day[table.length - 1]!].map(isoDate)
    tell(0, `no row is of this season, ${span.first} to ${span.last}: the file runs from ${from} to ${to}`)
    return kept
  }
  const where = span
    ? `is not in this season, ${span.first} to ${span.last}, and left out`
    : 'is over ten years from the first row and left out'
  if (kept.length < rows.length)
    for (const row of rows) if (!isInside(row)) tell(row, `${isoDate(table.day[row]!)} ${where}`)
  return kept
}

function inOrder(table: WeatherTable, rows: number[], complain: Complain): number[] {
  const number = (row: number) => hourOfRow(table, row)
  const back = rows.find((row, at) => at > 0 && number(row) < number(rows[at - 1]!))
  if (back === undefined) return rows
  complain(
    { start: table.start[back]!, end: table.start[back]! + 16 },
    {
      name: 'out-of-order',
      level: 'hint',
      message: 'this row is earlier than the one before it; the rows were put in order',
      help: 'sort the file by time where this is a slip',
    },
  )
  return rows.toSorted((a, b) => number(a) - number(b))
}

/** Reports the rows of days among hours, or of hours among days. */
function reportOthers(
  table: WeatherTable,
  order: readonly number[],
  { form, complain }: { form: WeatherFile['form']; complain: Complain },
): void {
  const what = form === 'hourly' ? 'no hour, and the others have one' : 'an hour, and the others have none'
  for (const row of order)
    if (table.hour[row]! < 0 === (form === 'hourly'))
      complain(dateSpan(table, row), {
        name: 'bad-time',
        level: 'error',
        message: `this row has ${what}; it is left out`,
        help: 'keep hourly and daily rows in files of their own',
      })
}

const dateSpan = ({ start }: WeatherTable, row: number) => ({ start: start[row]!, end: start[row]! + 10 })
