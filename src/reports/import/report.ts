import { makeReport, type Report } from '../../facts/report.ts'
import type { ImportKind, ImportMapping } from '../../ledger/import/mapping.ts'
import { readRows } from '../../ledger/import/rows.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import { withEntries } from '../../ledger/write/add.ts'
import { folderOf, stemOf } from '../../ledger/write/entry-file.ts'
import { entryText, type PlainEntry } from '../../ledger/write/entry-text.ts'
import type { IsoDate } from '../../records/date.ts'
import { SINGULAR } from '../../records/kinds.ts'
import { judge } from '../../rules/index.ts'

interface ImportEntry {
  /** Lines of the spreadsheet that it was read from. */
  lines: number[]
  season: number
  /** The file that it asks for, and once written the file that it has, relative to the ledger. */
  file: string
  /** Name of the file without its number and ending. */
  stem: string
  text: string
}

export interface ImportData {
  kind: ImportKind
  from: string
  entries: ImportEntry[]
  /** Columns of the spreadsheet from which nothing is read. */
  unused: string[]
  written: boolean
}

interface ImportInput {
  ledger: Ledger
  asOf: IsoDate
  kind: ImportKind
  /** The spreadsheet as typed and its text. */
  file: string
  text: string
  mapping: ImportMapping
}

/**
 * What a spreadsheet's rows come to as entries, and every finding that they would cause. Findings about an entry name
 * the line of the spreadsheet; nothing may be written while one of them is an error.
 */
export function importRows(input: ImportInput) {
  const { ledger, asOf, kind, file, text, mapping } = input
  const read = readRows({ at: { file, text }, kind, mapping, ledger })
  const entries = named(read.entries, input)
  const { own, caused } =
    read.findings.length > 0
      ? { own: read.findings, caused: [] }
      : causedBy(entries, { ledger, asOf, kind, file })
  const data: ImportData = { kind, from: file, entries, unused: read.unused, written: false }
  const report = makeReport('import', { asOf, season: null }, { data, findings: [...own, ...caused] })
  return {
    report,
    /** Whether every cell and entry was understood; else nothing is ever written. */
    readable: own.every(({ level }) => level !== 'error'),
    /** Whether an entry is recorded already, or breaks a rule: then it is written only where that is asked for. */
    doubtful: caused.some(({ level, name }) => level === 'error' || name === 'entered-twice'),
  }
}

/** The same report once its files are written. */
export function writtenTo(report: Report<ImportData>, files: readonly string[]): Report<ImportData> {
  const entries = report.data.entries.map((entry, index) => ({ ...entry, file: files[index]! }))
  return { ...report, data: { ...report.data, entries, written: true } }
}

function named(
  read: readonly { lines: number[]; entry: PlainEntry }[],
  { ledger, kind }: ImportInput,
): ImportEntry[] {
  const taken = new Map<string, number>()
  return read.flatMap(({ lines, entry }) => {
    const season = typeof entry.date === 'string' ? seasonOf(ledger.vineyard, entry.date) : 0
    const stem = stemOf(entry, ledger)
    const path = `${folderOf(kind, season)}/${stem}`
    const number = (taken.get(path) ?? 0) + 1
    taken.set(path, number)
    const text = entryText(entry, `../../../.rowbook/schema/${SINGULAR[kind]}.json`)
    return [{ lines, season, stem, file: `${path}${number === 1 ? '' : `-${number}`}.yaml`, text }]
  })
}

function causedBy(
  entries: readonly ImportEntry[],
  { ledger, asOf, kind, file }: Omit<ImportInput, 'text' | 'mapping'>,
): { own: Finding[]; caused: Finding[] } {
  const added = withEntries(
    ledger,
    entries.map((entry, index) => ({
      kind,
      season: entry.season,
      file: placeholder(index),
      text: entry.text,
    })),
  )
  const own = added.findings
  const caused: Finding[] = []
  if (own.every(({ level }) => level !== 'error')) {
    const seasons = new Set(entries.map(({ season }) => season))
    const known = new Set(judge({ ledger, asOf, seasons }).map(keyOf))
    for (const finding of judge({ ledger: added.ledger, asOf, seasons }))
      if (!known.has(keyOf(finding))) caused.push(finding)
  }
  const placedIn = (finding: Finding) => inSpreadsheet(finding, { entries, file })
  return { own: own.map(placedIn), caused: caused.map(placedIn) }
}

/** A name that no file of a ledger has, by which findings are led back to their line. */
const placeholder = (index: number) => `import:${index}`

const keyOf = ({ name, file, line, column, message }: Finding) =>
  JSON.stringify([name, file, line, column, message])

function inSpreadsheet(
  finding: Finding,
  { entries, file }: { entries: readonly ImportEntry[]; file: string },
): Finding {
  const lineOf = (index: string) => entries[Number(index)]!.lines[0]!
  const located = (text: string) =>
    text.replace(/import:(\d+)(:\d+)*/g, (_, index: string) => `${file}:${lineOf(index)}`)
  const [message, help] = [located(finding.message), located(finding.help)]
  const match = /^import:(\d+)$/.exec(finding.file)
  if (!match) return { ...finding, message, help }
  return { ...finding, message, help, file, line: lineOf(match[1]!), column: 1 }
}
