import type { LedgerFiles } from '../../ledger/read/files.ts'
import type { Finding } from '../../ledger/read/finding.ts'

/** Reads the line that a finding is about, each file once. */
export function lineReader(ledger: LedgerFiles): (finding: Finding) => string | null {
  const files = new Map<string, string[] | null>()
  return ({ file, line }) => {
    let lines = files.get(file)
    if (lines === undefined) {
      const { text } = ledger.read(file)
      lines = text === undefined ? null : text.split(/\r?\n/)
      files.set(file, lines)
    }
    return lines?.[line - 1] || null
  }
}
