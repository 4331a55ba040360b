import type { LedgerFiles } from '../read/files.ts'
import { aboutFile } from '../read/finding.ts'
import type { Ledger } from '../read/ledger.ts'
import { openLedger } from '../read/open.ts'
import { withFiles } from './with-files.ts'

/** The ledger that files would make which are not written yet, with what is wrong in it. */
export function inMemory(files: Readonly<Record<string, string>>): Ledger {
  const nothing: LedgerFiles = {
    list: () => [],
    has: () => false,
    read: (file) => ({
      finding: aboutFile(file, { name: 'no-such-file', message: 'no such file', help: '' }),
    }),
  }
  return openLedger('', { seasons: [], kinds: [], history: [] }, withFiles(nothing, files))
}
