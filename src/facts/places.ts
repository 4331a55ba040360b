import { seededDraw } from '../agronomy/statistics/seeded-draw.ts'
import type { Named } from '../ledger/read/ledger.ts'
import type { Block } from '../records/kinds/block.ts'
import { vinesOf } from './block-size.ts'

/** Where a vine stands: row and vine in the row, both from 1; without rows, the vine's number in the block. */
interface Place {
  row: number | null
  vine: number
}

/** Vines of a block drawn at random from a seed, in walking order: row by row. */
export function drawPlaces(block: Named<Block>, { seed, count }: { seed: string; count: number }): Place[] {
  const { planted } = vinesOf(block)
  const { rows } = block
  if (rows === undefined)
    return seededDraw({ seed: `${seed} ${block.id}`, count, from: planted }).map((index) => ({
      row: null,
      vine: index + 1,
    }))
  const perRow = Math.max(1, Math.round(planted / rows))
  return seededDraw({ seed: `${seed} ${block.id}`, count, from: rows * perRow }).map((index) => ({
    row: Math.floor(index / perRow) + 1,
    vine: (index % perRow) + 1,
  }))
}
