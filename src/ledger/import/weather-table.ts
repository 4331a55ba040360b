import { splitLine } from '../read/csv.ts'
import type { Finding } from '../read/finding.ts'
import type { Ledger } from '../read/ledger.ts'
import { placeAt } from '../read/source.ts'
import type { Measured, WeatherMapping } from '../weather/columns.ts'
import { lineWriter, newForm } from '../weather/line.ts'
import { readRows } from '../weather/rows.ts'
import type { WeatherTable } from '../weather/table.ts'

/** A weather file as an import sees it. */
export interface ImportTable {
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

/** Reads a weather file by `vineyard.yaml`, or by `how` it is written where that was said. */
export function importTable(
  ledger: Ledger,
  at: { file: string; text: string },
  how?: WeatherMapping,
): ImportTable {
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

/** Why rows of an export can't stand in a season's file; null where they can. */
export function unlike(
  source: ImportTable,
  target: ImportTable,
): Pick<Finding, 'name' | 'message' | 'help'> | null {
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
export function writerFor(
  ledger: Ledger,
  source: ImportTable,
  target: ImportTable | null,
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

/** The row's line with its cells in the order of the target's columns; as it stands where there is no target. */
function lineFor(row: number, source: ImportTable, target: ImportTable | null): string {
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
