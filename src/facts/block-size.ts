import { blockArea, treatedArea, vinesPlanted } from '../agronomy/crop/area.ts'
import type { Block } from '../records/block.ts'
import type { Spray } from '../records/spray.ts'

/** The area of a block in ha: as written, else from its rows. */
export function areaOf(block: Block): number {
  if (block.area !== undefined) return block.area
  return blockArea({ rows: block.rows!, rowLength: block.row_length!, rowSpacing: block.row_spacing })
}

/** Living vines of a block: from its rows where they are written, else from its area and spacing. */
export function vinesOf(block: Block): { planted: number; alive: number } {
  const planted =
    block.rows !== undefined && block.row_length !== undefined
      ? vinesPlanted({ rows: block.rows, rowLength: block.row_length, vineSpacing: block.vine_spacing })
      : Math.round((areaOf(block) * 10_000) / (block.row_spacing * block.vine_spacing))
  return { planted, alive: Math.max(0, planted - (block.missing ?? 0)) }
}

/** What an entry says of how much it treats. */
type Extent = Pick<Spray, 'rows' | 'vines' | 'share' | 'method'>

/**
 * The area in ha that an entry treats on a block: the whole, or the rows, vines or share that it names.
 * @returns null where rows are named and the block's record doesn't say how many there are, and for a spot spray that
 *   names no extent.
 */
export function treatedAreaOf(entry: Extent, block: Block): number | null {
  const area = areaOf(block)
  if (entry.vines !== undefined)
    return Math.min(area, (entry.vines * block.row_spacing * block.vine_spacing) / 10_000)
  if (isUnmeasuredSpot(entry)) return null
  if (entry.rows) {
    if (block.rows === undefined) return null
    const rowsTreated = Math.min(block.rows, entry.rows.high) - entry.rows.low + 1
    return treatedArea({ area, rows: block.rows, rowsTreated: Math.max(0, rowsTreated) })
  }
  return entry.share === undefined ? area : treatedArea({ area, share: entry.share / 100 })
}

/** Whether an entry is a spot spray of which nobody wrote how much it treated. */
export const isUnmeasuredSpot = ({ method, rows, vines, share }: Extent): boolean =>
  method === 'spot' && rows === undefined && vines === undefined && share === undefined
