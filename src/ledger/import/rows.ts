import { addAll } from '../../records/add-all.ts'
import { SEASONAL } from '../../records/kinds.ts'
import { type CsvRow, csvRows, separatorOf } from '../read/csv.ts'
import type { Finding } from '../read/finding.ts'
import type { Ledger } from '../read/ledger.ts'
import { nearest } from '../read/read-entry.ts'
import { placeAt, placeOf } from '../read/source.ts'
import type { PlainEntry, PlainValue } from '../write/entry-text.ts'
import { readCell } from './cell.ts'
import { type ImportField, type ImportKind, type ImportMapping, importFields } from './mapping.ts'

/** An entry built from rows of a spreadsheet. */
interface ImportedEntry {
  /** Line numbers it was read from. */
  lines: number[]
  entry: PlainEntry
}

interface Job {
  at: { file: string; text: string }
  kind: ImportKind
  mapping: ImportMapping
  ledger: Ledger
}

/** Reads a spreadsheet's rows into entries; every cell that isn't understood is reported by its line and column. */
export function readRows(job: Job): { entries: ImportedEntry[]; findings: Finding[]; unused: string[] } {
  const { at, mapping } = job
  const findings: Finding[] = []
  const tell = (from: number, to: number, name: string, message: string, help: string) =>
    findings.push({ ...placeAt(at, from, to), name, level: 'error', message, help })
  const first = /[^\r\n]*/.exec(at.text.replace(/^\s*\n/, ''))![0]
  const [header, ...rows] = csvRows(at.text, mapping.separator ?? separatorOf(first))
  if (!header) tell(0, 1, 'empty-file', 'the file holds nothing', 'export it again')
  const names = header?.cells.map(({ text }) => text.trim()) ?? []
  const fields = importFields(job.kind)
  const columns = header ? columnsOf(job, names, { fields, findings, rows }) : []
  if (findings.length > 0) return { entries: [], findings, unused: [] }
  const read: ImportedEntry[] = []
  for (const row of rows) {
    const bad = badRow(row, names.length)
    if (bad) {
      tell(row.from, firstLineEnd(at.text, row), 'bad-row', ...bad)
      continue
    }
    const entry: PlainEntry = {}
    for (const [key, value] of Object.entries(mapping.constants ?? {})) put(entry, fields.get(key)!, value)
    for (const { index, field, dates } of columns) {
      const { text, from, to } = row.cells[index]!
      if (text.trim() === '') continue
      const { value, fault } = readCell(text.trim(), field, { ...job, dates })
      if (fault) tell(from, Math.max(from + 1, to), fault.name, fault.message, fault.help)
      else put(entry, field, value)
    }
    read.push({ lines: [row.line], entry: inOrder(entry, job.kind) })
  }
  const unused = names.filter((name, at) => name !== '' && !columns.some(({ index }) => index === at))
  return { entries: mapping.row === 'product' ? joined(read) : read, findings, unused }
}

/** A column's date order: from the mapping, else from the cells that fit only one order. */
function datesOf(
  rows: readonly CsvRow[],
  index: number,
  { field, mapping }: { field: ImportField; mapping: ImportMapping },
): ImportMapping['dates'] | null {
  if (field.about.format !== 'date') return null
  if (mapping.dates) return mapping.dates
  const cells = rows.flatMap(({ cells }) => cells[index]?.text.trim() ?? [])
  const numbers = cells.map((text) => /^(\d{1,2})[./-](\d{1,2})[./-](?:\d{4}|\d{2})$/.exec(text))
  if (numbers.some((match) => match && Number(match[1]) > 12)) return 'day-first'
  return numbers.some((match) => match && Number(match[2]) > 12) ? 'month-first' : null
}

/** What is wrong with a row's shape, and how to fix it. */
function badRow({ cells, open }: CsvRow, wanted: number): [message: string, help: string] | null {
  if (open) return ['a quotation mark is never closed', 'close it, or take it out']
  if (cells.length === wanted) return null
  return [
    `the row has ${cells.length} cells, the header ${wanted}`,
    'check the separator and the quotation marks of this row',
  ]
}

const firstLineEnd = (text: string, { from, to }: CsvRow) => {
  const stop = text.indexOf('\n', from)
  return stop < 0 || stop > to ? to : stop
}

/** The columns that the mapping names; one that isn't there, or twice, is a finding. */
function columnsOf(
  { at, mapping }: Job,
  names: readonly string[],
  {
    fields,
    findings,
    rows,
  }: { fields: Map<string, ImportField>; findings: Finding[]; rows: readonly CsvRow[] },
) {
  return Object.entries(mapping.columns).flatMap(([key, name]) => {
    const index = names.indexOf(name.trim())
    const field = fields.get(key)!
    if (index >= 0 && names.lastIndexOf(name.trim()) === index)
      return [{ index, field, dates: datesOf(rows, index, { field, mapping }) }]
    const has = index < 0 ? 'has no column' : 'has two columns'
    findings.push({
      ...placeOf(mapping.source, ['columns', key]),
      name: 'unknown-column',
      level: 'error',
      message: `${at.file} ${has} \`${name}\``,
      help: (index < 0 && nearest(name, names)) || `its columns: ${names.join(', ')}`,
    })
    return []
  })
}

function put(entry: PlainEntry, { path }: ImportField, value: PlainValue): void {
  let at: PlainEntry = entry
  for (const [index, step] of path.slice(0, -1).entries()) {
    if (typeof step === 'number') continue
    const list = typeof path[index + 1] === 'number'
    at[step] ??= list ? [{}] : {}
    const inner = at[step]
    at = (Array.isArray(inner) ? inner[0] : inner) as PlainEntry
  }
  at[String(path.at(-1))] = value
}

/** The keys in the order of the record's schema. */
function inOrder(entry: PlainEntry, kind: ImportKind): PlainEntry {
  const order = Object.keys(SEASONAL[kind].shape)
  return Object.fromEntries(Object.entries(entry).sort(([a], [b]) => order.indexOf(a) - order.indexOf(b)))
}

/** Neighbouring rows that agree in all but the product are one spray with several products. */
function joined(rows: readonly ImportedEntry[]): ImportedEntry[] {
  const made: { key: string; one: ImportedEntry }[] = []
  for (const { lines, entry } of rows) {
    const { products, ...rest } = entry
    const key = JSON.stringify(rest)
    const last = made.at(-1)
    if (last?.key !== key || !Array.isArray(products)) {
      made.push({ key, one: { lines, entry } })
      continue
    }
    addAll(last.one.lines, lines)
    last.one.entry.products = [...(last.one.entry.products as PlainValue[]), ...products]
  }
  return made.map(({ one }) => one)
}
