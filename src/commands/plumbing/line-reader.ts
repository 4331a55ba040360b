import type { LedgerFiles } from '../../ledger/read/files.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { renderFindings } from '../../render/findings.ts'
import type { Style } from '../../render/style.ts'

/** Reads the line that a finding is about, each file once. */
export function lineReader(ledger: LedgerFiles): (finding: Finding) => string | null {
  const files = new Map<string, string[] | undefined>()
  return ({ file, line }) => {
    if (!files.has(file)) files.set(file, ledger.read(file).text?.split(/\r?\n/))
    return files.get(file)?.[line - 1] || null
  }
}

/** The errors of a ledger, each with its line. */
export function errorsShown({ reader }: Ledger, findings: readonly Finding[], style: Style): string {
  const errors = findings.filter(({ level }) => level === 'error')
  return renderFindings(errors, lineReader(reader), style)
}
