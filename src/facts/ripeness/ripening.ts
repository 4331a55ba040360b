import type { StageEntry } from '../../ledger/read/ledger.ts'
import { inSeason, type JudgedLedger } from '../judged.ts'

/** Looks up the first stage of ripening seen on a block in a season. */
type RipeningSeen = (of: { block: string; season: number }) => StageEntry | undefined

/**
 * The first stages of ripening (BBCH 81 and later) seen on each block in its season, up to the day of the report. 81
 * and 83 date the start, 85 shows that it had started; 89, ripe for harvest, doesn't date it.
 */
export function ripeningSeen(input: JudgedLedger): RipeningSeen {
  const ripening = inSeason(
    input,
    input.ledger.stages.filter(({ stage }) => stage >= 81),
  )
  return (of) => ripening(of)[0]
}
