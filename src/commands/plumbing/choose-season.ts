import { filesOnDisk, type LedgerFiles } from '../../ledger/read/files.ts'
import { seasonsIn } from '../../ledger/read/folder.ts'
import { seasonOf, seasonSpan } from '../../ledger/read/seasons.ts'
import { readSite } from '../../ledger/read/site.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Env } from './env.ts'

/**
 * The day and season of a report. The day is the one typed, else today at the vineyard. The season is the one
 * typed, else that of the day. Where the ledger has nothing for that season yet, it is the newest one before;
 * every report names its season, so this shows. With only a season typed, the day of a past season is its last.
 */
export function chooseSeason(
  root: string,
  {
    asOf,
    season,
    files = filesOnDisk(root),
    env,
  }: { asOf?: IsoDate | undefined; season?: number | undefined; files?: LedgerFiles; env: Env },
): { asOf: IsoDate; season: number } {
  const site = readSite(root, files)
  env.runBy?.(site.timezone)
  const today = () => env.today(site.timezone)
  if (season !== undefined) {
    const { last } = seasonSpan(site, season)
    return { season, asOf: asOf ?? earlier(last, today()) }
  }
  const day = asOf ?? today()
  const current = seasonOf(site, day)
  const seasons = seasonsIn(files)
  const kept = seasons.includes(current)
    ? current
    : (seasons.filter((one) => one < current).at(-1) ?? current)
  return { asOf: day, season: kept }
}

const earlier = (one: IsoDate, other: IsoDate) => (one < other ? one : other)
