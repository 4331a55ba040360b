import { leafWallPerHa } from '../../agronomy/spraying/canopy.ts'
import type { Application } from './applications.ts'
import { isConcentrated } from './dose.ts'
import type { DoseForms } from './label.ts'

/** An application's dose in every form in which a label may limit it. */
export function doseForms(one: Application): DoseForms {
  const { spray, block, product, perHa, waterPerHa } = one
  if (!perHa) return { perHa: null, perLeafWall: null, concentration: one.concentration }
  const unit = perHa.unit.startsWith('kg') ? 'kg' : 'L'
  const height = block.canopy?.height
  const volume = isConcentrated(product) && spray.dilute !== undefined ? spray.dilute : waterPerHa
  return {
    perHa,
    perLeafWall:
      height === undefined
        ? null
        : {
            value:
              (perHa.value * 10_000) /
              leafWallPerHa({ rowSpacing: block.row_spacing, treatedHeight: height }),
            unit: `${unit}/ha leaf wall`,
          },
    concentration:
      volume === null ? null : { value: (perHa.value * 1000) / volume, unit: unit === 'kg' ? 'g/L' : 'mL/L' },
  }
}
