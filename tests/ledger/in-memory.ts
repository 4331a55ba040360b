import type { LedgerFiles } from '../../src/ledger/read/files.ts'
import type { Finding } from '../../src/ledger/read/finding.ts'
import type { Ledger } from '../../src/ledger/read/ledger.ts'
import { openLedger } from '../../src/ledger/read/open.ts'
import { RULES } from '../../src/rules/index.ts'
import * as rules from '../../src/rules/rule.ts'
import { SITE } from './make.ts'

/** Files of a ledger that is only in memory, by their paths. */
export function filesInMemory(files: Readonly<Record<string, string | null>>): LedgerFiles {
  const paths = Object.keys(files).filter((path) => files[path] !== null)
  return {
    list(folder) {
      const below = folder === '' ? '' : `${folder}/`
      const inside = paths.filter((path) => path.startsWith(below)).map((path) => path.slice(below.length))
      const names = [...new Set(inside.map((path) => path.split('/')[0]!))]
      return names.map((name) => ({ name, isDirectory: () => !inside.includes(name) }))
    },
    read: (file) => ({ text: files[file]! }),
    has: (file) => paths.includes(file),
  }
}

/** The small vineyard of `make.ts` in memory, with these files added or in place of its own. */
export const ledgerOf = (files: Readonly<Record<string, string | null>> = {}): Ledger =>
  openLedger('/nowhere', { seasons: 'all' }, filesInMemory({ ...SITE, ...files }))

/** The findings of one rule in a ledger that has no findings of reading. */
export function findingsOf(
  rule: string,
  files: Readonly<Record<string, string | null>>,
  asOf = '2026-10-20',
): Finding[] {
  const ledger = ledgerOf(files)
  if (ledger.findings.length > 0)
    throw new Error(`the ledger doesn't read: ${JSON.stringify(ledger.findings, null, 1)}`)
  const wanted = RULES.find(({ name }) => name === rule)
  if (!wanted) throw new Error(`there is no rule ${rule}`)
  return rules.findingsOf(wanted, { ledger, asOf, seasons: new Set(ledger.seasons) })
}
