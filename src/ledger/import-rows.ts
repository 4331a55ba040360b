import { SEASONAL } from '../records/kinds.ts'
import { cellSpan, csvLines, separatorOf, splitLine } from './csv-lines.ts'
import type { PlainEntry, PlainValue } from './entry-text.ts'
import type { Finding } from './finding.ts'
import { readCell } from './import-cell.ts'
import { type ImportField, type ImportKind, type ImportMapping, importFields } from './import-mapping.ts'
import type { Ledger } from './ledger.ts'
import { nearest } from './read-entry.ts'
import { placeAt, placeOf } from './source.ts'

/** An entry that rows of a spreadsheet come to. */
export interface ImportedEntry {
  /** Lines of the file that it was read from. */
  lines: number[]
  entry: PlainEntry
}

interface Job {
  at: { file: string; text: string }
  kind: ImportKind
  mapping: ImportMapping
  ledger: Ledger
}

/** Reads a spreadsheet's rows into entries; every cell that isn't understood is told by its line and column. */
export function readRows(job: Job): { entries: ImportedEntry[]; findings: Finding[]; unused: string[] } {
  const { at, mapping } = job
  const lines = [...csvLines(at.text)]
  const header = lines[0]
  if (!header)
    return {
      entries: [],
      unused: [],
      findings: [fault(job, [0, 1], 'empty-file', 'the file holds nothing', 'export it again')],
    }
  const separator = mapping.separator ?? separatorOf(header.text)
  const names = splitLine(header.text, separator).map((name) => name.trim())
  const { columns, findings } = columnsOf(job, names)
  if (findings.length > 0) return { entries: [], findings, unused: [] }
  const read: ImportedEntry[] = []
  for (const line of lines.slice(1)) {
    const number = at.text.slice(0, line.start).split('\n').length
    const place = (index: number): [number, number] => {
      const { from, to } = cellSpan(line.text, separator, index)
      return [line.start + from, line.start + Math.max(from + 1, to)]
    }
    if ((line.text.match(/"/g) ?? []).length % 2 === 1) {
      findings.push(
        fault(
          job,
          [line.start, line.start + line.text.length],
          'bad-row',
          'a quotation mark is open at the end of the line',
          'a cell can hold no line break here; take it out',
        ),
      )
      continue
    }
    const cells = splitLine(line.text, separator)
    if (cells.length !== names.length) {
      findings.push(
        fault(
          job,
          [line.start, line.start + line.text.length],
          'bad-row',
          `the row has ${cells.length} cells, the header ${names.length}`,
          'check the separator and the quotation marks of this row',
        ),
      )
      continue
    }
    const entry: PlainEntry = {}
    for (const [key, value] of Object.entries(mapping.constants ?? {}))
      put(entry, importFields(job.kind).get(key)!, value)
    for (const { index, field } of columns) {
      const cell = cells[index]!.trim()
      if (cell === '') continue
      const result = readCell(cell, field, job)
      if (result.fault)
        findings.push(fault(job, place(index), result.fault.name, result.fault.message, result.fault.help))
      else put(entry, field, result.value)
    }
    if (Object.keys(entry).length > 0) read.push({ lines: [number], entry: inOrder(entry, job.kind) })
  }
  const used = new Set(columns.map(({ index }) => index))
  const unused = names.filter((name, index) => !used.has(index) && name !== '')
  return { entries: mapping.row === 'product' ? joined(read) : read, findings, unused }
}

function columnsOf(job: Job, names: readonly string[]) {
  const fields = importFields(job.kind)
  const findings: Finding[] = []
  const columns: { index: number; field: ImportField }[] = []
  for (const [key, name] of Object.entries(job.mapping.columns)) {
    const index = names.indexOf(name.trim())
    const field = fields.get(key)!
    if (index >= 0 && names.lastIndexOf(name.trim()) === index) columns.push({ index, field })
    else
      findings.push({
        ...placeOf(job.mapping.source, ['columns', key]),
        name: 'unknown-column',
        level: 'error',
        message:
          index < 0
            ? `${job.at.file} has no column \`${name}\``
            : `${job.at.file} has two columns \`${name}\``,
        help: (index < 0 && nearest(name, names)) || `its columns: ${names.join(', ')}`,
      })
  }
  return { columns, findings }
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

/** The keys in the order of the record's schema, as a hand would write them. */
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
    last.one.lines.push(...lines)
    last.one.entry.products = [...(last.one.entry.products as PlainValue[]), ...products]
  }
  return made.map(({ one }) => one)
}

function fault(job: Job, [from, to]: [number, number], name: string, message: string, help: string): Finding {
  return { ...placeAt(job.at, from, to), name, level: 'error', message, help }
}
