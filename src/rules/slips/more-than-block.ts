import { vinesOf } from '../../facts/block-size.ts'
import { type JudgedLedger, judged } from '../../facts/judged.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import type { Placed } from '../../ledger/read/source.ts'
import type { Range } from '../../records/quantity.ts'
import { type Found, findingAt, mention, OWN_RULE, type Rule } from '../rule.ts'

/** Rows that the block doesn't have. */
export const moreThanBlock: Rule = {
  name: 'more-than-block',
  what: "An entry names rows or vines that the block doesn't have.",
  limits: "The block's `rows` count.",
  ...OWN_RULE,
  check: (input) => [
    ...judged(input, 'sprays').flatMap((spray) =>
      spray.blocks.flatMap((id) =>
        [beyond(input, spray, spray.rows, id), beyondVines(input, spray, id)].flat(),
      ),
    ),
    ...(['scouting', 'crop', 'work'] as const).flatMap((kind) =>
      judged(input, kind).flatMap((entry) => beyond(input, entry, entry.rows, entry.block)),
    ),
  ],
}

function beyondVines({ ledger }: JudgedLedger, spray: SprayEntry, id: string): Found | [] {
  const block = ledger.blocks.get(id)
  if (!block || spray.vines === undefined) return []
  const { planted } = vinesOf(block)
  if (spray.vines <= planted) return []
  return findingAt(spray, ['vines'], {
    level: 'error',
    message: `${spray.vines} vines, but ${block.name} has ${planted} (${mention(block, block.vines === undefined ? [] : ['vines'])})`,
    help: 'correct the number of vines, or the block',
  })
}

function beyond(
  { ledger }: JudgedLedger,
  entry: Placed<object>,
  rows: Range | undefined,
  id: string,
): Found | [] {
  const block = ledger.blocks.get(id)
  if (!rows || block?.rows === undefined || rows.high <= block.rows) return []
  return findingAt(entry, ['rows'], {
    level: 'error',
    message: `rows ${rows.low}-${rows.high}, but ${block.name} has ${block.rows} (${mention(block, ['rows'])})`,
    help: 'correct the rows, the block, or the number of rows in its record',
  })
}
