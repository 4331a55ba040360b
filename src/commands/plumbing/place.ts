import { realpathSync } from 'node:fs'
import { sep } from 'node:path'
import { RecordCache } from '../../ledger/cache/record-cache.ts'
import { filesOnDisk, type LedgerFiles } from '../../ledger/read/files.ts'
import { findLedger } from '../../ledger/read/find.ts'
import { seasonsIn } from '../../ledger/read/folder.ts'
import { seasonOf, seasonSpan } from '../../ledger/read/seasons.ts'
import { readSite } from '../../ledger/read/site.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Env } from './env.ts'

/** The ledger found, and the day and season of the report. */
export interface Place {
  root: string
  files: LedgerFiles
  asOf: IsoDate
  season: number
}

/**
 * Finds the ledger, and the day and season of the report. The day is the one typed, else today at the vineyard. The
 * season is the one typed, else that of the day. Where the ledger has nothing for that season yet, it is the newest
 * one before; every report names its season, so this shows. With only a season typed, the day of a past season is
 * its last.
 */
export function placeOf(
  env: Env,
  typed: { ledger?: string | undefined; asOf?: IsoDate | undefined; season?: number | undefined },
): Place {
  const root = findLedger(env.cwd, typed.ledger)
  const files = ledgerFiles(root, env)
  const site = readSite(root, files)
  env.runBy?.(site.timezone)
  const { season } = typed
  const day = typed.asOf ?? env.today(site.timezone)
  if (season === undefined) {
    const current = seasonOf(site, day)
    const begun = seasonsIn(files).filter((one) => one <= current)
    return { root, files, asOf: day, season: begun.at(-1) ?? current }
  }
  const { last } = seasonSpan(site, season)
  const isPast = typed.asOf === undefined && last < day
  return { root, files, asOf: isPast ? last : day, season }
}

/**
 * The files of a ledger on the disk. Each folder is listed once, files that are read are counted on the progress line,
 * and records cached by earlier runs are used.
 */
function ledgerFiles(root: string, env: Env): LedgerFiles {
  const disk = filesOnDisk(root)
  const listed = new Map<string, ReturnType<LedgerFiles['list']>>()
  const list = (folder: string) => {
    const known = listed.get(folder) ?? disk.list(folder)
    listed.set(folder, known)
    return known
  }
  let count = 0
  const read = (file: string) => {
    env.progress?.tell(`reading, ${++count} files`)
    return disk.read(file)
  }
  const files = { ...disk, list, read }
  if (!env.cache || !env.later) return files
  const { folder, label } = env.cache
  // No cache inside a ledger, which holds only what its owner wrote.
  if (realpathSync(folder).startsWith(root + sep)) return files
  const cache = new RecordCache(folder, label, root)
  env.later(() => cache.save())
  return { ...files, cache }
}
