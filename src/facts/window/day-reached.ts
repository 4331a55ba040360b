import type { Ledger } from '../../ledger/read/ledger.ts'
import { dayOf } from '../../records/date.ts'
import { brixByDay, samplesOf } from '../ripeness/samples.ts'

/**
 * The day, with its fraction, on which a season's samples and press passed a target for good, on the straight line
 * between the two around it; null where they never did.
 */
export function dayReached(
  ledger: Ledger,
  { block, season, target }: { block: string; season: number; target: number },
): number | null {
  const pressed = ledger.picks
    .filter((pick) => pick.block === block && pick.season === season && pick.brix !== undefined)
    .map((pick) => ({ date: pick.date, brix: pick.brix! }))
  const sampled = brixByDay(samplesOf(ledger, { block, season, asOf: '9999-12-31' }))
  const days = new Map([...pressed, ...sampled].map(({ date, brix }) => [dayOf(date), brix]))
  const course = [...days].sort(([a], [b]) => a - b)
  const at = course.findLastIndex(([, brix]) => brix < target)
  const [before, after] = [course[at], course[at + 1]]
  if (!before || !after) return null
  return before[0] + ((target - before[1]) / (after[1] - before[1])) * (after[0] - before[0])
}
