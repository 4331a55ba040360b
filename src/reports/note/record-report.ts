import { CAUTION, makeReport, type ReportInput } from '../../facts/report.ts'
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

/** New records as their files will be, with what is wrong with them, and the report of the last. */
export type NotedRecords = ReturnType<typeof noteRecords>

/** New records, every finding in their files being what `check` would say of them. */
export function noteRecords({ ledger, asOf, season }: ReportInput, added: readonly NewRecord[]) {
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
  const { kind, file, entry, text } = records.at(-1)!
  const data = { file, entry: contractForm(STANDING[kind], entry), text, written: false }
  const cautions = kind === 'products' ? [CAUTION.dose] : []
  return {
    records,
    all,
    errors: all.filter(({ level }) => level === 'error').length,
    /** Whether all can be read back; what can't is never written. */
    readable: records.every(({ kind, id }) => grown[kind].has(id)),
    report: makeReport('note', { asOf, season }, { data, findings: all, cautions }),
  }
}

/** The same once they are written. */
export const writtenRecords = (noted: NotedRecords): NotedRecords => ({
  ...noted,
  report: { ...noted.report, data: { ...noted.report.data, written: true } },
})
