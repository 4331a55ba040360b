import { splitLine } from '../read/csv.ts'
import type { Finding } from '../read/finding.ts'
import type { Ledger } from '../read/ledger.ts'
import { placeAt } from '../read/source.ts'
import type { Measured, WeatherMapping } from '../weather/columns.ts'
import { lineWriter, newForm } from '../weather/line.ts'
import { readRows } from '../weather/rows.ts'
import { emptyTable, type WeatherTable } from '../weather/table.ts'
import { whyNoTimes } from './no-times.ts'
import { merged } from './recognise.ts'
import type { Recognised, Said } from './recognised.ts'
import { understood } from './spaced.ts'
import { asDays, broughtToHours, inTimeOrder, risesOf, type ToHours } from './to-hours.ts'

/** A weather file as an import sees it. */
export interface ImportTable {
  file: string
  text: string
  separator: string
  header: string[]
  rows: WeatherTable
  measured: Set<Measured>
  /** Whether its lines can't be copied as they are, because its form differs. */
  isForeign: boolean
  findings: Finding[]
}

/** An export: as read, as recognised, and combined into hours where its rows are shorter. */
export interface ExportTable extends ImportTable {
  /** Null where it has no rows. */
  recognised: Recognised | null
  hours: ToHours
}

type At = { file: string; text: string }

/** Reads a season's weather file by `vineyard.yaml`. */
export const importTable = (ledger: Ledger, at: At): ImportTable =>
  tableOf(ledger, at, { mapping: ledger.vineyard.weather, isForeign: false })

/** Reads an export by its content and by what the user said about it. */
export function exportTable(ledger: Ledger, as: At, said: Said): ExportTable {
  const { weather, units, timezone: zone } = ledger.vineyard
  const { at, recognised } = understood(as, { weather, units }, said)
  if (!recognised) return noTable(at)
  const isForeign = !isPlain(recognised, said, weather)
  const how = isForeign ? recognised.how : undefined
  const mapping = how ? merged(weather && { ...weather, columns: {}, units: {} }, how) : weather
  const table = tableOf(ledger, at, {
    mapping,
    isForeign,
    as: isForeign ? recognised : undefined,
    said: said.how,
  })
  const questions = recognised.questions.map(
    (one): Finding => ({ ...placeAt(at, recognised.head.start, recognised.head.start + 1), ...one }),
  )
  table.findings = [...questions, ...withoutFooter({ ...table, findings: withoutHeads(table, recognised) })]
  if (recognised.isDaily) asDays(table.rows)
  const order = inTimeOrder(table.rows)
  if (recognised.isCounted) risesOf(table.rows, order)
  const hours = broughtToHours(table.rows, order, zone)
  // Hours whose clock wasn't recognised: their days would hold only the first of them.
  if (recognised.isDaily && hours.twice > hours.rows.length)
    table.findings.unshift({
      ...placeAt(at, recognised.head.start, recognised.head.start + 1),
      name: 'no-time-column',
      level: 'error',
      message: `its rows have only a date, and most days stand there more than once`,
      help: 'say which column holds the clock time: --columns "time=NAME"; or export one row a day',
    })
  return { ...table, recognised, hours }
}

/** The findings of an export, without those for a heading repeated among the rows. */
function withoutHeads({ findings, text }: ImportTable, { head }: Recognised): Finding[] {
  const heads = new Set(
    text
      .slice(head.start, head.end)
      .split(/\r?\n/)
      .map((line) => line.trim()),
  )
  const lines = findings.some(({ name }) => name === 'bad-time') ? text.split('\n') : []
  return findings.filter(({ name, line }) => name !== 'bad-time' || !heads.has(lines[line - 1]?.trim() ?? ''))
}

/** The findings of an export; totals and remarks below its last row become one finding that doesn't stop the import. */
function withoutFooter({ findings, rows, text }: ImportTable): Finding[] {
  const last = rows.length === 0 ? Number.POSITIVE_INFINITY : rows.start[rows.length - 1]!
  const lastLine = text.slice(0, last).split('\n').length
  const isBehind = ({ name, line }: Finding) => name === 'bad-time' && line > lastLine
  const [first, ...more] = findings.filter(isBehind)
  if (!first) return findings
  const message =
    more.length === 0
      ? 'the line below the last row holds no time, and is left out'
      : `${more.length + 1} lines below the last row hold no time, and are left out`
  const help = 'if it is a row, mend its time; sums and remarks may stay'
  return [...findings.filter((one) => !isBehind(one)), { ...first, level: 'warning', message, help }]
}

function noTable(at: At): ExportTable {
  const rows = emptyTable(0, [])
  const fault: Finding = {
    ...placeAt(at, 0, 1),
    level: 'error',
    ...(at.text.trim() === ''
      ? { name: 'empty-file', message: 'the file holds nothing', help: 'export it again' }
      : { name: 'no-time-column', ...whyNoTimes(at.text) }),
  }
  const hours = { rows, step: null, cut: [], empty: 0, partly: 0, twice: 0 }
  return {
    ...at,
    separator: ',',
    header: [],
    rows,
    measured: new Set(),
    isForeign: false,
    findings: [fault],
    recognised: null,
    hours,
  }
}

function tableOf(
  ledger: Ledger,
  at: At,
  form: {
    mapping: WeatherMapping | undefined
    isForeign: boolean
    as?: Recognised | undefined
    said?: WeatherMapping | undefined
  },
): ImportTable {
  const findings: Finding[] = []
  const read = readRows(at.text, {
    mapping: form.mapping,
    zone: ledger.vineyard.timezone,
    head: form.as?.head,
    offset: form.as?.offset,
    timeOf: form.as?.timeOf,
    numberOf: form.as?.numberOf,
    isCounted: form.as?.isCounted,
    scale: form.as?.scale,
    complain: ({ start, end }, { level = 'warning', ...fault }) =>
      findings.push({ ...placeAt(at, start, end), ...fault, level }),
  })
  const { table: rows, columns, separator, header } = read
  // Columns named for this file must exist; a column that vineyard.yaml maps may be missing in an export.
  for (const { at: place, ...fault } of columns?.faults ?? [])
    if ('key' in place && isSaid(form.said, place.key)) findings.unshift({ ...placeAt(at, 0, 1), ...fault })
  const measured = new Set(columns?.measured.map(({ key }) => key))
  return { ...at, separator, header, rows, measured, isForeign: form.isForeign, findings }
}

/** Whether an export has the form of the ledger's own files, so that its lines can be copied into them. */
function isPlain(
  { head, how, columns, offset, isDaily, isCounted }: Recognised,
  said: Said,
  own: WeatherMapping = {},
): boolean {
  const isOwn = columns.every(({ as, by }) => as === null || as === 'unused' || by === 'name')
  const isSame =
    (how.decimal === (own.decimal ?? 'point') || how.decimal === undefined) &&
    how.dates === (own.dates ?? 'iso')
  const hasTime = columns.some(({ as }) => as === (isDaily ? 'date' : 'time'))
  const nothingSaid = said.how === undefined && said.rain === undefined
  return nothingSaid && isOwn && isSame && hasTime && offset === null && !isCounted && head.start === 0
}

function isSaid(how: WeatherMapping | undefined, [part, key]: string[]): boolean {
  const said = part === 'columns' ? how?.columns : how?.units
  return said !== undefined && key !== undefined && Object.hasOwn(said, key)
}

/** Why an export's rows can't go into a season's file; null where they can. */
export function unlike(
  source: ImportTable,
  target: ImportTable,
): Pick<Finding, 'name' | 'message' | 'help'> | null {
  const isDaily = (rows: WeatherTable) => rows.hour[0]! < 0
  const areRows = target.rows.length > 0 && source.rows.length > 0
  if (areRows && isDaily(target.rows) !== isDaily(source.rows))
    return {
      name: 'bad-time',
      message: `its rows are ${isDaily(source.rows) ? 'of days' : 'of hours'}, and those of ${target.file} are not`,
      help: 'keep hourly and daily rows in files of their own',
    }
  return null
}

/** How a season's file will be written: its heading and its rows. */
export interface SeasonForm {
  header: readonly string[]
  separator: string
  mapping: WeatherMapping
  /** Readings that the heading has no column for yet. */
  isNew: readonly Measured[]
}

/** The form of a season's file: as it is, plus a column for each reading that it has none for yet. */
export function seasonForm(ledger: Ledger, source: ImportTable, target: ImportTable | null): SeasonForm {
  const mapping = ledger.vineyard.weather ?? {}
  const own = newForm(mapping, { isDaily: source.rows.hour[0]! < 0, measured: source.measured })
  if (!target) return { ...own, isNew: [] }
  const isNew = [...source.measured].filter((key) => !target.measured.has(key))
  const added = newForm(mapping, { isDaily: false, measured: new Set(isNew) }).header.slice(1)
  return { header: [...target.header, ...added], separator: target.separator, mapping, isNew }
}

/** How rows are written: copied, or, from a file in another form, cell by cell. */
export function lineOf(
  source: ImportTable,
  target: ImportTable | null,
  { form, rows }: { form: SeasonForm; rows: WeatherTable },
): (row: number) => string {
  if (source.isForeign || rows !== source.rows || form.isNew.length > 0) {
    const write = lineWriter(form)
    return (row) => write(rows, row)
  }
  return (row) => lineAsItStands(row, source, target)
}

/** The row's line with its cells in the order of the target's columns; unchanged where there is no target. */
function lineAsItStands(row: number, source: ImportTable, target: ImportTable | null): string {
  const start = source.rows.start[row]!
  const stop = source.text.indexOf('\n', start)
  const line = source.text.slice(start, stop < 0 ? source.text.length : stop).replace(/\r$/, '')
  const isSame =
    !target || (target.separator === source.separator && target.header.join() === source.header.join())
  if (isSame && !MAY_REACT.test(line)) return line
  const { header, separator } = target ?? source
  const cells = splitLine(line, source.separator).map((cell) => (reacts(cell.trim()) ? '' : cell))
  return header
    .map((name, at) => {
      const cell = (cells[isSame ? at : source.header.indexOf(name)] ?? '').trim()
      return cell.includes(separator) || cell.includes('"') ? `"${cell.replaceAll('"', '""')}"` : cell
    })
    .join(separator)
}

/** Characters that may start a spreadsheet formula; a line of plain numbers has none. */
const MAY_REACT = /[=@+|]|[-][^\d]/

/** Whether a spreadsheet would read a cell as a formula: it is left out and counts as unknown. */
const reacts = (cell: string) => /^[=@+-]/.test(cell) && !/^[+-]?[\d.,]+$/.test(cell)
