import { leafWallPerHa, rowVolumePerHa } from '../../agronomy/spraying/canopy.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/kinds/block.ts'

/** What a dose may depend on besides the ground, as the mean over the area; m, m²/ha and m³/ha. */
export interface Canopy {
  rowSpacing: number | undefined
  leafWallPerHa: number | undefined
  rowVolumePerHa: number | undefined
  means: string[]
}

/** Row spacing, leaf wall and row volume: as typed, else as the mean of the blocks over their area. */
export function canopyOf(
  typed: { rowSpacing?: number | undefined; height?: number | undefined; width?: number | undefined },
  areas: readonly { block: Named<Block>; area: number }[],
): Canopy {
  const rows = (areas.length > 0 ? areas : [{ block: undefined, area: 1 }]).map(({ block, area }) => {
    const rowSpacing = typed.rowSpacing ?? block?.row_spacing
    const height = typed.height ?? block?.canopy?.height
    const width = typed.width ?? block?.canopy?.width
    const known = rowSpacing !== undefined && height !== undefined
    return {
      area,
      rowSpacing,
      wall: known ? leafWallPerHa({ rowSpacing, treatedHeight: height }) : undefined,
      volume: known && width !== undefined ? rowVolumePerHa({ rowSpacing, height, width }) : undefined,
    }
  })
  const mean = (of: 'wall' | 'volume') => {
    if (rows.some((row) => row[of] === undefined)) return undefined
    const whole = rows.reduce((sum, { area }) => sum + area, 0)
    return rows.reduce((sum, row) => sum + row[of]! * row.area, 0) / whole
  }
  const differs = (of: 'wall' | 'rowSpacing') => new Set(rows.map((row) => row[of])).size > 1
  return {
    rowSpacing: differs('rowSpacing') ? undefined : rows[0]!.rowSpacing,
    leafWallPerHa: mean('wall'),
    rowVolumePerHa: mean('volume'),
    means: differs('wall')
      ? [
          'The blocks differ in row spacing or canopy: a dose for leaf wall or row volume is their mean; mix them separately for exact doses.',
        ]
      : [],
  }
}
