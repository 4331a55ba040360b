import type { Ledger } from '../ledger/read/ledger.ts'
import { spokenDate } from '../records/spoken-date.ts'
import { type BlockSeason, entriesOf } from './block-entries.ts'

/** The last pick of a block in a season up to a day. Asked for each day of a course of danger, so nothing is copied. */
const lastPick = ({ picks }: Pick<Ledger, 'picks'>, { block, season, asOf }: BlockSeason) =>
  picks.findLast(
    (one) => one.block === block && one.season === season && (asOf === undefined || one.date <= asOf),
  )

/**
 * The share of a block that hangs on its vines, 0 to 1, by the last pick: 1 where nothing was picked, 0 where that pick
 * doesn't say that anything was left.
 */
export function shareHanging(ledger: Pick<Ledger, 'picks'>, of: BlockSeason): number {
  const last = lastPick(ledger, of)
  return last ? (last.rest ?? 0) / 100 : 1
}

/**
 * That a block was picked only in part, in sentences, and to sample the rest where nobody has; null where nothing or all
 * of it was picked.
 */
export function inPartText(ledger: Pick<Ledger, 'picks' | 'samples'>, of: BlockSeason): string | null {
  const last = lastPick(ledger, of)
  if (!last?.rest) return null
  const isSampled = entriesOf(ledger.samples, of).some(({ date }) => date > last.date)
  const sample = isSampled ? '' : ' Sample that part: samples of the whole block may not hold for it.'
  return `Picked in part on ${spokenDate(last.date)}: ${last.rest} % of the block still hangs.${sample}`
}
