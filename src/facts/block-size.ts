import { areaOfVines, blockArea, treatedArea, vinesPlanted } from '../agronomy/crop/area.ts'
import type { Block } from '../records/kinds/block.ts'
import type { Spray } from '../records/kinds/spray.ts'

/** The area of a block in ha: as written, else from its rows, else from its number of vines. */
export function areaOf(block: Block): number {
  const { area, rows, row_length, row_spacing, vine_spacing, vines } = block
  if (area !== undefined) return area
  if (rows !== undefined && row_length !== undefined)
    return blockArea({ rows, rowLength: row_length, rowSpacing: row_spacing })
  return areaOfVines({ vines: vines!, rowSpacing: row_spacing, vineSpacing: vine_spacing })
}

/** Vines of a block, planted and alive: the number written, else from its rows, else from its area and spacing. */
export function vinesOf(block: Block): { planted: number; alive: number } {
  const planted = block.vines ?? vinesBySpacing(block)
  return { planted, alive: Math.max(0, planted - (block.missing ?? 0)) }
}

/** Vines planted by rows and spacings, else by area and spacings. */
function vinesBySpacing(block: Block): number {
  const { rows, row_length, row_spacing, vine_spacing } = block
  return rows !== undefined && row_length !== undefined
    ? vinesPlanted({ rows, rowLength: row_length, vineSpacing: vine_spacing })
    : Math.round((areaOf(block) * 10_000) / (row_spacing * vine_spacing))
}

/** How much of a block an entry treats, as written. */
type Extent = Pick<Spray, 'rows' | 'vines' | 'share' | 'method'>

/**
 * The area in ha that an entry treats on a block: the whole block, or the rows, vines or share that it names.
 * @returns null where rows are named and the block's record doesn't say how many there are, and for a spot spray that
 *   names no extent.
 */
export function treatedAreaOf(entry: Extent, block: Block): number | null {
  const area = areaOf(block)
  if (entry.vines !== undefined)
    return treatedArea({ area, share: Math.min(1, entry.vines / Math.max(1, vinesOf(block).planted)) })
  if (isUnmeasuredSpot(entry)) return null
  if (entry.rows) {
    if (block.rows === undefined) return null
    const rowsTreated = Math.min(block.rows, entry.rows.high) - entry.rows.low + 1
    return treatedArea({ area, rows: block.rows, rowsTreated: Math.max(0, rowsTreated) })
  }
  return entry.share === undefined ? area : treatedArea({ area, share: entry.share / 100 })
}

/** Whether an entry is a spot spray without a record of how much it treated. */
export const isUnmeasuredSpot = ({ method, rows, vines, share }: Extent): boolean =>
  method === 'spot' && rows === undefined && vines === undefined && share === undefined
