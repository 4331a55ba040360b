import { basename, dirname, resolve } from 'node:path'
import { type EveryHour, everyHour } from '../agronomy/weather-hours.ts'
import { isoDate } from '../records/date.ts'
import { byPlace, type Finding } from './finding.ts'
import type { Ledger } from './ledger.ts'
import { type ReadResult, readText } from './read-file.ts'
import { seasonSpan } from './seasons.ts'
import { placeAt, placeOf } from './source.ts'
import type { Columns, Measured, WeatherMapping } from './weather-columns.ts'
import { type DailyWeather, daysFromHours, daysFromRows } from './weather-days.ts'
import { hoursOf } from './weather-hours.ts'
import { type Complain, readRows, type StationRow } from './weather-rows.ts'

export type { WeatherMapping } from './weather-columns.ts'
export type { DailyWeather } from './weather-days.ts'
export type { StationHour } from './weather-rows.ts'

/** A station's file as read. What can't be read is unknown and told in `findings`; nothing is thrown. */
export interface Weather {
  /** Relative to the ledger, or as named; null where the season has no file. */
  file: string | null
  form: 'hourly' | 'daily' | null
  /** Rows that were read. */
  rows: number
  /** A row for every hour from the first day to the last (each a `StationHour` where the station has one); empty for daily files. */
  hours: EveryHour
  /** A row for every day from the first to the last. */
  days: readonly DailyWeather[]
  /** What the file has a column for. */
  measured: ReadonlySet<Measured>
  findings: Finding[]
}

const read = new WeakMap<Ledger, Map<number, Weather>>()

/** The weather of a season, read once for each ledger. */
export function readWeather(ledger: Ledger, season: number): Weather {
  const known = read.get(ledger) ?? new Map<number, Weather>()
  read.set(ledger, known)
  const before = known.get(season)
  if (before) return before
  const weather = shared(ledger, season) ?? readSeason(ledger, season)
  known.set(season, weather)
  return weather
}

function readSeason(ledger: Ledger, season: number): Weather {
  const file = ledger.weather.get(season)
  const { vineyard } = ledger
  if (file === undefined) return noWeather(null)
  return readFrom(ledger.root, file, {
    read: (name) => ledger.reader.read(name),
    mapping: vineyard.weather,
    zone: vineyard.timezone,
    span: seasonSpan(vineyard, season),
    keyPlace: (path) => placeOf(vineyard.source, ['weather', ...path]),
  })
}

/** The same, taken from another revision of the ledger where that has the same site and the same file. */
function shared(ledger: Ledger, season: number): Weather | null {
  const file = ledger.weather.get(season)
  const kept = ledger.reader.shared?.weather
  const text = file === undefined || !kept ? undefined : ledger.reader.read(file).text
  if (!kept || text === undefined) return null
  const key = [season, ledger.vineyard.source.at.text, text].join('\n')
  const weather = (kept.get(key) as Weather | undefined) ?? readSeason(ledger, season)
  kept.set(key, weather)
  return weather
}

/**
 * A weather file that the user named, wherever it lies.
 * @param options how it is written, else the usual names; the IANA zone of its clock, for clock changes
 */
export function readWeatherFile(
  path: string,
  options: { mapping?: WeatherMapping | undefined; zone?: string | undefined; cwd?: string } = {},
): Weather {
  const whole = resolve(options.cwd ?? '.', path)
  const weather = readFrom(dirname(whole), basename(whole), options)
  const findings = weather.findings.map((finding) => ({ ...finding, file: path }))
  return { ...weather, file: path, findings }
}

/** Whether nothing at all can be taken from the file, and its findings say why. */
export function isUnreadable(weather: Weather): boolean {
  return weather.days.length === 0 && weather.findings.some(({ level }) => level === 'error')
}

interface How {
  /** Where the ledger's files are read from, where that isn't the disk. */
  read?: (file: string) => ReadResult
  mapping?: WeatherMapping | undefined
  zone?: string | undefined
  /** Days outside of these are left out. */
  span?: { first: string; last: string }
  /** Where a key under `weather:` stands. */
  keyPlace?: (path: string[]) => { file: string; line: number; column: number; length: number }
}

/** More findings of one name say nothing new. */
const MOST_ALIKE = 20
const LONGEST_DAYS = 4000

function readFrom(root: string, file: string, how: How): Weather {
  const { text, finding } = how.read ? how.read(file) : readText(root, file)
  if (finding) return noWeather(file, [finding])
  const { complain, findings } = collector({ file, text })
  const { rows, columns } = readRows(text, { mapping: how.mapping, zone: how.zone, complain })
  findings.push(...keyFaults(columns, file, how))
  const kept = inOrder(inSpan(rows, { span: how.span, complain }), complain)
  const form = kept[0] ? (kept[0].hour < 0 ? 'daily' : 'hourly') : null
  const own = kept.filter((row) => row.hour < 0 === (form === 'daily') || tellOther(row, complain))
  const hours = form === 'hourly' ? hoursOf(own, { zone: how.zone, complain }) : everyHour([])
  const days = form === 'daily' ? daysFromRows(own, complain) : daysFromHours(hours)
  const measured = new Set(columns?.measured.map(({ key }) => key))
  return { file, form, rows: rows.length, hours, days, measured, findings: findings.sort(byPlace) }
}

function noWeather(file: string | null, findings: Finding[] = []): Weather {
  return { file, form: null, rows: 0, hours: everyHour([]), days: [], measured: new Set(), findings }
}

function collector(at: { file: string; text: string }): { complain: Complain; findings: Finding[] } {
  const findings: Finding[] = []
  const counts = new Map<string, number>()
  const complain: Complain = ({ start, end }, { level = 'warning', ...fault }) => {
    const count = (counts.get(fault.name) ?? 0) + 1
    counts.set(fault.name, count)
    if (count <= MOST_ALIKE) findings.push({ ...placeAt(at, start, end), ...fault, level })
    else if (count === MOST_ALIKE + 1)
      findings.push({
        ...placeAt(at, start, end),
        ...fault,
        level,
        message: `more of the same (${fault.name}) from here on, not listed`,
      })
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

function inSpan(
  rows: StationRow[],
  { span, complain }: { span: How['span']; complain: Complain },
): StationRow[] {
  const tell = (row: StationRow, message: string) =>
    complain(
      { start: row.start, end: row.start + 10 },
      { name: 'wrong-season', message, help: 'correct the date, or move the row to the file of its season' },
    )
  if (!span) {
    const first = rows[0]
    return rows.filter((row) => {
      if (Math.abs(row.day - first!.day) <= LONGEST_DAYS) return true
      tell(row, `${isoDate(row.day)} is over ten years from the first row and left out`)
      return false
    })
  }
  const first = Date.parse(span.first) / 86_400_000
  const last = Date.parse(span.last) / 86_400_000
  return rows.filter((row) => {
    if (row.day >= first && row.day <= last) return true
    tell(row, `${isoDate(row.day)} is not in this season, ${span.first} to ${span.last}, and left out`)
    return false
  })
}

function inOrder(rows: StationRow[], complain: Complain): StationRow[] {
  const number = (row: StationRow) => row.day * 24 + row.hour
  const back = rows.find((row, at) => at > 0 && number(row) < number(rows[at - 1]!))
  if (!back) return rows
  complain(
    { start: back.start, end: back.start + 16 },
    {
      name: 'out-of-order',
      level: 'hint',
      message: 'this row is earlier than the one before it; the rows were put in order',
      help: 'sort the file by time where this is a slip',
    },
  )
  return rows.toSorted((a, b) => number(a) - number(b))
}

function tellOther(row: StationRow, complain: Complain): false {
  complain(
    { start: row.start, end: row.start + 10 },
    {
      name: 'bad-time',
      level: 'error',
      message: `this row has ${row.hour < 0 ? 'no hour, and the others have one' : 'an hour, and the others have none'}; it is left out`,
      help: 'keep hourly and daily rows in files of their own',
    },
  )
  return false
}
