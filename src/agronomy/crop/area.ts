import { requireNotNegative, requirePositive, requireShare } from '../statistics/require-number.ts'

/**
 * Area of a block from its rows: rows x length x spacing. That counts half a spacing outside each edge row and
 * no headlands.
 * @param block rows, rowLength in m, rowSpacing in m
 * @returns ha
 * @throws RangeError where a figure is not positive
 * Source: common practice, no source.
 */
export function blockArea(block: { rows: number; rowLength: number; rowSpacing: number }): number {
  requirePositive(block)
  return (block.rows * block.rowLength * block.rowSpacing) / 10_000
}

/**
 * Vines of a block as planted: rows x length / spacing, to the nearest whole vine.
 * @param block rows, rowLength in m, vineSpacing in m
 * @throws RangeError where a figure is not positive
 * Source: common practice, no source; checked against the University of New Hampshire kiwiberry guide.
 */
export function vinesPlanted(block: { rows: number; rowLength: number; vineSpacing: number }): number {
  requirePositive(block)
  return Math.round(block.rows * (block.rowLength / block.vineSpacing))
}

/**
 * Area of a number of vines: each has row spacing x vine spacing.
 * @param block vines as planted, rowSpacing and vineSpacing in m
 * @returns ha
 * @throws RangeError where a figure is not positive
 * Source: common practice, no source; the inverse of planting density (Hedrick 1919).
 */
export function areaOfVines(block: { vines: number; rowSpacing: number; vineSpacing: number }): number {
  requirePositive(block)
  return (block.vines * block.rowSpacing * block.vineSpacing) / 10_000
}

/**
 * Planting density: 10 000 / (row spacing x vine spacing).
 * @param spacing rowSpacing and vineSpacing in m
 * @returns vines per ha
 * @throws RangeError where a figure is not positive
 * Source: Hedrick 1919, Manual of American Grape-Growing.
 */
export function vinesPerHa(spacing: { rowSpacing: number; vineSpacing: number }): number {
  requirePositive(spacing)
  return 10_000 / (spacing.rowSpacing * spacing.vineSpacing)
}

/**
 * Area treated when only some rows or a share of a block is.
 * @param part area of the block in ha; either share (0 to 1) or rowsTreated of rows
 * @returns ha
 * @throws RangeError where the area or rows are not positive, the share is outside 0 to 1 or more rows are
 *   treated than there are
 */
export function treatedArea(
  part: { area: number } & ({ share: number } | { rowsTreated: number; rows: number }),
): number {
  requirePositive({ area: part.area })
  if ('share' in part) {
    requireShare({ share: part.share })
    return part.area * part.share
  }
  requirePositive({ rows: part.rows })
  requireNotNegative({ 'treated rows': part.rowsTreated })
  if (part.rowsTreated > part.rows)
    throw new RangeError(`requires at most ${part.rows} treated rows, got ${part.rowsTreated}`)
  return part.area * (part.rowsTreated / part.rows)
}
