import { realpathSync } from 'node:fs'
import { sep } from 'node:path'
import { RecordCache } from '../../ledger/cache/record-cache.ts'
import { filesOnDisk, type LedgerFiles } from '../../ledger/read/files.ts'
import type { Env } from './env.ts'

/** The files of a ledger on the disk. Each folder is listed once, and records cached by earlier runs are used. */
export function ledgerFiles(root: string, env: Env): LedgerFiles {
  const disk = filesOnDisk(root)
  const listed = new Map<string, ReturnType<LedgerFiles['list']>>()
  const list = (folder: string) => {
    const known = listed.get(folder) ?? disk.list(folder)
    listed.set(folder, known)
    return known
  }
  if (!env.cache || !env.later) return { ...disk, list }
  const { folder, label } = env.cache
  // No cache inside a ledger, which holds only what its owner wrote.
  if (realpathSync(folder).startsWith(root + sep)) return { ...disk, list }
  const cache = new RecordCache(folder, label, root)
  env.later(() => cache.save())
  return { ...disk, list, cache }
}
