import { realpathSync } from 'node:fs'
import { sep } from 'node:path'
import { RecordCache } from '../../ledger/cache/record-cache.ts'
import { filesOnDisk, type LedgerFiles } from '../../ledger/read/files.ts'
import type { Env } from './env.ts'

/** The files of a ledger on the disk, each folder listed once, with the records that earlier runs kept of them. */
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
  // A ledger holds what its owner wrote, and nothing else.
  if (realpathSync(folder).startsWith(root + sep)) return { ...disk, list }
  const cache = new RecordCache(folder, label, root)
  env.later(() => cache.save())
  return { ...disk, list, cache }
}
