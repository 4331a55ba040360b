import { requirePositive } from '../statistics/require-number.ts'

/**
 * Length of vine row on a hectare: 10 000 / row spacing.
 * @param rowSpacing m
 * @returns m/ha
 * @throws RangeError where the spacing is not positive
 * Source: LWG Bayern "Das Laubwandflaechen-Modell".
 */
function rowLengthPerHa(rowSpacing: number): number {
  requirePositive({ rowSpacing })
  return 10_000 / rowSpacing
}

/**
 * Leaf wall area, both sides of the row: 2 x treated height x 10 000 / row spacing. It is not leaf area.
 * @param canopy treatedHeight in m, the band that the open nozzles really cover; rowSpacing in m
 * @returns m² per ha of ground
 * @throws RangeError where a figure is not positive
 * Source: LWG Bayern "Das Laubwandflaechen-Modell".
 */
export function leafWallPerHa(canopy: { treatedHeight: number; rowSpacing: number }): number {
  requirePositive(canopy)
  return 2 * canopy.treatedHeight * rowLengthPerHa(canopy.rowSpacing)
}

/**
 * Row volume of the canopy: height x width x 10 000 / row spacing.
 * @param canopy height, width and rowSpacing in m
 * @returns m³ per ha of ground
 * @throws RangeError where a figure is not positive
 * Source: Byers 1987, HortScience 22:506; Gil et al. 2007, Crop Protection 26:1287 (formula from memory).
 */
export function rowVolumePerHa(canopy: { height: number; width: number; rowSpacing: number }): number {
  requirePositive(canopy)
  return canopy.height * canopy.width * rowLengthPerHa(canopy.rowSpacing)
}

/**
 * Dilute spray volume from the row volume.
 * @param canopy rowVolumePerHa in m³/ha; litresPerCubicMetre, which hangs on the density of the foliage and
 *   is for the grower to give
 * @returns L per ha of ground
 * @throws RangeError where a figure is not positive
 * Source: orchard-math sheet, N. Ward 2018 (there in US gal per 1000 cubic feet).
 */
export function diluteFromRowVolume(canopy: { rowVolumePerHa: number; litresPerCubicMetre: number }): number {
  requirePositive(canopy)
  return canopy.rowVolumePerHa * canopy.litresPerCubicMetre
}
