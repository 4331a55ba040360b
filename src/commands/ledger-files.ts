import { RecordCache } from '../ledger/cache.ts'
import { filesOnDisk, type LedgerFiles } from '../ledger/files.ts'
import type { Env } from './env.ts'

/** The files of a ledger on the disk, each folder listed once, with the records that an earlier run kept of them. */
export function ledgerFiles(root: string, env: Env): LedgerFiles {
  const disk = filesOnDisk(root)
  const listed = new Map<string, ReturnType<LedgerFiles['list']>>()
  const list = (folder: string) => {
    const known = listed.get(folder) ?? disk.list(folder)
    listed.set(folder, known)
    return known
  }
  if (!env.cache || !env.later) return { ...disk, list }
  const cache = new RecordCache(env.cache.folder, env.cache.label, root)
  env.later(() => cache.save())
  return { ...disk, list, cache }
}
