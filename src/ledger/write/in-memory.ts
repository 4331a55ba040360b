import type { FolderEntry, LedgerFiles } from '../read/files.ts'
import { aboutFile } from '../read/finding.ts'
import type { Ledger } from '../read/ledger.ts'
import { openLedger } from '../read/open.ts'

/** The ledger that unwritten files would make, with its findings. */
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

/** The files of a ledger together with some that aren't written yet. Paths are relative to the ledger. */
export function withFiles(files: LedgerFiles, added: Readonly<Record<string, string>>): LedgerFiles {
  const names = Object.keys(added)
  return {
    read: (file) => (Object.hasOwn(added, file) ? { text: added[file]! } : files.read(file)),
    has: (file) => Object.hasOwn(added, file) || files.has(file),
    list(folder) {
      const standing = files.list(folder)
      const known = new Set(standing.map(({ name }) => name))
      const inside = names.flatMap((name) => childOf(folder, name))
      return [...standing, ...inside.filter(({ name }) => !known.has(name))]
    },
  }
}

/** The name under which a file appears in a folder: its own, or that of the subfolder that leads to it. */
function childOf(folder: string, file: string): FolderEntry[] {
  const start = folder === '' ? '' : `${folder}/`
  if (!file.startsWith(start)) return []
  const [name, ...rest] = file.slice(start.length).split('/')
  return [{ name: name!, isDirectory: () => rest.length > 0, isFile: () => rest.length === 0 }]
}
