import type { Finding } from '../ledger/finding.ts'
import { readText } from '../ledger/read-file.ts'

/** Reads the line that a finding is about, each file once. */
export function lineReader(root: string): (finding: Finding) => string | null {
  const files = new Map<string, string[] | null>()
  return ({ file, line }) => {
    let lines = files.get(file)
    if (lines === undefined) {
      const { text } = readText(root, file)
      lines = text === undefined ? null : text.split(/\r?\n/)
      files.set(file, lines)
    }
    return lines?.[line - 1] || null
  }
}
