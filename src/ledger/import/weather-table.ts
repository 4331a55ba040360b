import { isoDate } from '../../records/date.ts'
import { longDate } from '../../records/spoken-date.ts'
import type { Finding } from '../read/finding.ts'
import type { Ledger } from '../read/ledger.ts'
import { type FileText, placeAt } from '../read/source.ts'
import type { Measured, WeatherMapping } from '../weather/columns.ts'
import { readRows } from '../weather/rows.ts'
import type { WeatherTable } from '../weather/table.ts'
import { merged, type Recognised, recognise } from './recognise.ts'
import type { Said } from './recognised.ts'
import { broughtToHours, type ToHours } from './to-hours.ts'

/** A weather file as an import sees it. */
export interface ImportTable extends FileText {
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
  recognised: Recognised
  hours: ToHours
}

/** Reads a season's weather file by `vineyard.yaml`. */
export const importTable = (ledger: Ledger, at: FileText): ImportTable =>
  tableOf(ledger, at, { mapping: ledger.vineyard.weather })

/** Reads an export by its content and by what the user said about it; a finding where it has no rows. */
export function exportTable(ledger: Ledger, as: FileText, said: Said): ExportTable | Finding {
  const { weather, units, timezone: zone } = ledger.vineyard
  const { at, recognised } = understood(as, (text) => recognise(text, { weather, units }, said), said)
  if (!recognised)
    return {
      ...placeAt(at, 0, 1),
      level: 'error',
      ...(at.text.trim() === ''
        ? { name: 'empty-file', message: 'the file holds nothing', help: 'export it again' }
        : { name: 'no-time-column', ...whyNoTimes(at.text) }),
    }
  const { head, isDaily } = recognised
  const mapping = merged(weather && { ...weather, columns: {}, units: {} }, recognised.how)
  const table = isPlain(recognised, said, weather)
    ? tableOf(ledger, at, { mapping: weather })
    : tableOf(ledger, at, { mapping, as: recognised, said: said.how })
  const place = placeAt(at, head.start, head.start + 1)
  const findings = [
    ...recognised.questions.map((one): Finding => ({ ...place, ...one })),
    ...withoutFooter(table, withoutHeads(table, head)),
  ]
  const hours = broughtToHours(table.rows, { ...recognised, zone })
  // Hours whose clock wasn't recognised: their days would hold only the first of them.
  if (isDaily && hours.twice > hours.rows.length)
    findings.unshift({
      ...place,
      name: 'no-time-column',
      level: 'error',
      message: `its rows have only a date, and most days stand there more than once`,
      help: 'say which column holds the clock time: --columns "time=NAME"; or export one row a day',
    })
  return { ...table, findings, recognised, hours }
}

/** A recognised export with the text used: its own, or with tabs where only spaces separate its cells. */
function understood(
  at: FileText,
  recognised: (text: string) => Recognised | null,
  said: Said,
): { at: FileText; recognised: Recognised | null } {
  const found = recognised(at.text)
  if (found || said.how?.separator !== undefined) return { at, recognised: found }
  for (const run of [/ {2,}|\t/g, / +|\t/g]) {
    const lines = at.text.split('\n').map((line) => line.trim().replace(run, '\t'))
    const text = lines.join('\n')
    const found = recognised(text)
    // If heading words and row cells differ in number, readings would get the wrong names.
    if (found && isEven(text, found.head)) return { at: { ...at, text }, recognised: found }
  }
  return { at, recognised: null }
}

function isEven(text: string, { names, end }: Recognised['head']): boolean {
  const row = text.slice(end).trimStart().split('\n', 1)[0]!
  return row.split('\t').length === names.length && !names.some((name) => /^column \d+$/.test(name))
}

/** The findings of an export, without those for a heading repeated among the rows. */
function withoutHeads({ findings, text }: ImportTable, { start, end }: Recognised['head']): Finding[] {
  if (!findings.some(({ name }) => name === 'bad-time')) return findings
  const plain = (part: string) => part.split('\n').map((line) => line.trim())
  const heads = new Set(plain(text.slice(start, end)))
  const lines = plain(text)
  return findings.filter(({ name, line }) => name !== 'bad-time' || !heads.has(lines[line - 1]!))
}

/** The findings of an export; totals and remarks below its last row become one finding that doesn't stop the import. */
function withoutFooter({ rows, text }: ImportTable, findings: readonly Finding[]): readonly Finding[] {
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

function tableOf(
  ledger: Ledger,
  at: FileText,
  {
    mapping,
    as,
    said,
  }: { mapping: WeatherMapping | undefined; as?: Recognised; said?: WeatherMapping | undefined },
): ImportTable {
  const findings: Finding[] = []
  const { table, columns, separator, header } = readRows(at.text, {
    ...as,
    mapping,
    zone: ledger.vineyard.timezone,
    complain: ({ start, end }, { level = 'warning', ...fault }) =>
      findings.push({ ...placeAt(at, start, end), ...fault, level }),
  })
  // Columns named for this file must exist; a column that vineyard.yaml maps may be missing in an export.
  for (const { at: place, ...fault } of columns?.faults ?? []) {
    const [part, key] = 'key' in place ? place.key : []
    if (key && Object.hasOwn(said?.[part as 'columns' | 'units'] ?? {}, key))
      findings.unshift({ ...placeAt(at, 0, 1), ...fault })
  }
  const measured = new Set(columns?.measured.map(({ key }) => key))
  return { ...at, separator, header, rows: table, measured, isForeign: as !== undefined, findings }
}

/** Whether an export has the form of the ledger's own files, so that its lines can be copied into them. */
function isPlain(
  { head, how, columns, offset, isDaily, isCounted }: Recognised,
  said: Said,
  own: WeatherMapping = {},
): boolean {
  const isOwn = columns.every(({ as, by }) => as === null || as === 'unused' || by === 'name')
  const isSame = how.decimal === (own.decimal ?? 'point') && how.dates === (own.dates ?? 'iso')
  const hasTime = columns.some(({ as }) => as === (isDaily ? 'date' : 'time'))
  const nothingSaid = said.how === undefined && said.rain === undefined
  return nothingSaid && isOwn && isSame && hasTime && offset === null && !isCounted && head.start === 0
}

/** Day 0 of spreadsheets, as a day since 1970: 30 December 1899. */
const SPREADSHEET_DAY_0 = -25_569

/** Number of lines searched. */
const MOST_LINES = 60

/** Why no time was found in an export, and how to write it instead. */
function whyNoTimes(text: string): { message: string; help: string } {
  const lines = text.split(/\r?\n/, MOST_LINES)
  const serial = /(?:^|[;,\t| "])([34567]\d{4}(?:[.,]\d+)?)(?=$|[;,\t| "])/
  const isDated = lines.some((line) => /date|time|stamp|datum|zeit|fecha|data\b|heure|tijd/i.test(line))
  const numbers = lines.flatMap((line) => serial.exec(line)?.[1] ?? [])
  if (
    isDated &&
    numbers.length > 0 &&
    numbers.length >= lines.filter((line) => line.trim() !== '').length / 2
  ) {
    const day = isoDate(SPREADSHEET_DAY_0 + Number.parseInt(numbers[0]!, 10))
    return {
      message: `its times are numbers as a spreadsheet stores them: ${numbers[0]} is ${longDate(day)}`,
      help: 'in the spreadsheet, format that column as yyyy-mm-dd hh:mm, and export it again',
    }
  }
  if (lines.some((line) => /\bdoy\b|julian|\byday\b|day ?of ?(?:the ?)?year|\bjday\b/i.test(line)))
    return {
      message: 'its days are counted from the start of the year: 161 is 10 June, or 9 June in a leap year',
      help: 'export it with dates like 2026-06-10, or add a column of them in a spreadsheet: =DATE(2026,1,161)',
    }
  return {
    message: 'no column of times or dates was found in it',
    help: 'export it again with a heading line, and times like 2026-06-14T13:00 or 14.06.2026 13:00, or dates like 2026-06-14',
  }
}
