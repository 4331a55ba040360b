import { AnswerCache } from '../ledger/answer-cache.ts'
import { cacheFolder, RecordCache } from '../ledger/cache.ts'
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
  const folder = keptIn(env)
  if (folder === null) return { ...disk, list }
  const cache = new RecordCache(folder, labelOf(env), root)
  env.later?.(() => cache.save())
  return { ...disk, list, cache }
}

/** The answers that earlier runs kept of a ledger, or null where nothing is kept between runs. */
export function answerCache(root: string, env: Env): AnswerCache | null {
  const folder = keptIn(env)
  return folder === null ? null : new AnswerCache(folder, labelOf(env), root)
}

const keptIn = (env: Env) => (env.build && env.later ? cacheFolder(env.variables) : null)

/** What decides how a file is read and judged, beside the file: the program, Node and its time zones. */
const labelOf = (env: Env) => `${env.build} ${process.version} ${process.versions.tz}`
