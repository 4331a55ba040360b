import { RecordCache } from '../../ledger/cache/cache.ts'
import { KeptFindings } from '../../ledger/cache/kept-findings.ts'
import { filesOnDisk, type LedgerFiles } from '../../ledger/read/files.ts'
import type { Env } from './env.ts'

/** The files of a ledger on the disk, each folder listed once, with what earlier runs kept of them. */
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
  const cache = new RecordCache(folder, label, root)
  const findings = new KeptFindings(folder, label, root)
  env.later(() => {
    cache.save()
    findings.save()
  })
  return { ...disk, list, cache, findings }
}
