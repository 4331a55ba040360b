import type { StageEntry } from '../../ledger/read/ledger.ts'
import type { Book } from '../book.ts'

/**
 * The first stage of ripening (BBCH 81 and on) seen on the block of an entry in its season, up to the day of looking.
 * 81 and 83 say when it began, 85 that it had; 89, ripe for harvest, says nothing of when.
 */
export function ripeningSeen(
  { ledger, asOf }: Book,
  { block, season }: { block: string; season: number },
): StageEntry | undefined {
  return ledger.stages.find(
    (one) => one.block === block && one.season === season && one.stage >= 81 && one.date <= asOf,
  )
}
