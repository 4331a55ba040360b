import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import { openLedger } from '../../ledger/read/open.ts'
import { entryText, type PlainEntry } from '../../ledger/write/entry-text.ts'
import { withFiles } from '../../ledger/write/in-memory.ts'
import { SINGULAR, STANDING, type StandingKind } from '../../records/kinds.ts'
import { judge } from '../../rules/index.ts'
import { contractForm } from './contract-form.ts'

/** A block, variety, product or sprayer that is to be written. */
export interface NewRecord {
  kind: StandingKind
  id: string
  entry: PlainEntry
}

/** New records as their files will be, with what is wrong with them. */
export interface NotedRecords {
  records: (NewRecord & { file: string; text: string })[]
  all: Finding[]
  errors: number
  /** Whether all can be read back; what can't is never written. */
  readable: boolean
  written: boolean
  /** The report by the JSON contract, of the last record. */
  report(written: boolean): Report<unknown>
}

/** New records, every finding in their files being what `check` would say of them. */
export function noteRecords(
  { ledger, asOf, season }: ReportInput,
  added: readonly NewRecord[],
): NotedRecords {
  const records = added.map((record) => ({
    ...record,
    file: `${record.kind}/${record.id}.yaml`,
    text: entryText(record.entry, `../.rowbook/schema/${SINGULAR[record.kind]}.json`),
  }))
  const files = Object.fromEntries(records.map(({ file, text }) => [file, text]))
  const grown = openLedger(
    ledger.root,
    { seasons: [], kinds: [], history: [] },
    withFiles(ledger.reader, files),
  )
  const findings = [...grown.findings, ...judge({ ledger: grown, asOf, seasons: new Set() })]
  // What is wrong with the folder itself keeps the record out of it.
  const folders = new Set<string>(added.map(({ kind }) => kind))
  const all = findings.filter(({ file }) => Object.hasOwn(files, file) || folders.has(file))
  const main = records.at(-1)!
  const cautions = main.kind === 'products' ? [CAUTION.dose] : []
  return {
    records,
    all,
    errors: all.filter(({ level }) => level === 'error').length,
    readable: records.every(({ kind, id }) => grown[kind].has(id)),
    written: false,
    report(written) {
      const data = {
        file: main.file,
        entry: contractForm(STANDING[main.kind], main.entry),
        text: main.text,
        written,
      }
      return makeReport('note', { asOf, season }, { data, findings: all, cautions })
    },
  }
}
