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
  /** Whether it is a plain file; unknown for names in git. */
  isFile?(): boolean
}

/** What was read from a text, shared with other states of the same ledger that hold the same text. */
export interface Shared {
  /** Sound records by file, with the text that they were read from. */
  records: Map<string, { text: string; records: Placed<object>[] }>
  /** Sound YAML. */
  nodes: Map<string, Node>
  /** Weather, stored and read by `weather.ts`. */
  weather: Map<string, unknown>
}

/** The source of a ledger's files: the disk, or a revision in git. Paths are relative to the ledger. */
export interface LedgerFiles {
  /**
   * The contents of a folder (`''` is the ledger itself), including hidden names; empty where there is no such folder.
   * @throws CannotRead where it can't be listed: its contents are then unknown.
   */
  list(folder: string): FolderEntry[]
  read(file: string): ReadResult
  /** @throws CannotRead where that can't be determined. */
  has(file: string): boolean
  /** What another revision of the same ledger has already read, by text, so that it is read once. */
  shared?: Shared
  /** Records that unchanged files gave in an earlier run. */
  cache?: Pick<RecordCache, 'find' | 'keep'> | undefined
}

/** The files of a ledger on disk. */
export function filesOnDisk(root: string): LedgerFiles {
  return {
    list(folder) {
      try {
        return readdirSync(placeOf(root, folder), { withFileTypes: true })
      } catch (error) {
        // Some disks need a call per name to get its type; a name that vanishes meanwhile must not empty the folder.
        const isNoFolder =
          faultCode(error) === 'ENOENT' && (error as NodeJS.ErrnoException).syscall === 'scandir'
        if (isNoFolder) return []
        throw cannotRead(folder, error)
      }
    },
    read: (file) => readText(root, file),
    // Links, and anything reached through one, don't count: their targets are never read.
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
