import { lstatSync, readdirSync, realpathSync } from 'node:fs'
import { join } from 'node:path'
import type { RecordCache } from '../cache/record-cache.ts'
import { cannotRead, isAbsent } from './cannot-read.ts'
import { faultCode } from './disk.ts'
import { placeOf, type ReadResult, readText } from './read-file.ts'
import type { Node, Placed } from './source.ts'

/** A name in a folder of the ledger. */
export interface FolderEntry {
  name: string
  isDirectory(): boolean
  /** Whether it is a plain file; unknown of names in git. */
  isFile?(): boolean
}

/** What was read from a text, kept for another state of the same ledger that holds the same text. */
export interface Shared {
  /** Sound records by file, with the text that they were read from. */
  records: Map<string, { text: string; records: Placed<object>[] }>
  /** Sound YAML. */
  nodes: Map<string, Node>
  /** Weather, which `weather.ts` puts here and takes out. */
  weather: Map<string, unknown>
}

/** Where the files of a ledger are read from: the disk, or a revision in git. Paths are relative to the ledger. */
export interface LedgerFiles {
  /**
   * What stands in a folder (`''` is the ledger itself), hidden names too; nothing where there is no such folder.
   * @throws CannotRead where it can't be listed: what it holds is then unknown.
   */
  list(folder: string): FolderEntry[]
  read(file: string): ReadResult
  /** @throws CannotRead where that can't be told. */
  has(file: string): boolean
  /** What another revision of the same ledger has read already, by text, so that it is read once. */
  shared?: Shared
  /** Records that unchanged files gave in an earlier run. */
  cache?: Pick<RecordCache, 'find' | 'keep'> | undefined
}

/** The files of a ledger as they stand on the disk. */
export function filesOnDisk(root: string): LedgerFiles {
  return {
    list(folder) {
      try {
        return readdirSync(placeOf(root, folder), { withFileTypes: true })
      } catch (error) {
        // Some disks are asked of each name what it is; one that vanishes meanwhile must not empty its folder.
        const isNoFolder =
          faultCode(error) === 'ENOENT' && (error as NodeJS.ErrnoException).syscall === 'scandir'
        if (isNoFolder) return []
        throw cannotRead(folder, error)
      }
    },
    read: (file) => readText(root, file),
    // A link is none, nor is what lies behind one: what it leads to is not read either.
    has(file) {
      try {
        const path = join(realpathSync(root), file)
        return realpathSync(path) === path && lstatSync(path).isFile()
      } catch (error) {
        if (isAbsent(error) || faultCode(error) === 'ELOOP') return false
        throw cannotRead(file, error)
      }
    },
  }
}
