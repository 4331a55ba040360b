import type { Named } from '../../ledger/read/ledger.ts'
import type { Product } from '../../records/product.ts'
import type { Quantity } from '../../records/quantity.ts'

/** One product to be mixed: by its record, or only by the name typed. */
export interface MixPart {
  id: string
  product: Named<Product> | null
  /** As typed: for ground or leaf wall, for a volume of spray, or in all. */
  dose: Quantity
  /** What it is against, where that was said. */
  targets?: readonly string[] | undefined
  /** Most for ground area that was typed beside the dose, kg/ha or L/ha. */
  most?: Quantity | undefined
}

/** How much of a block is treated, as typed. */
export interface Treated {
  rows: { low: number; high: number } | null
  vines: number | null
  /** 0 to 1. */
  share: number | null
}

/** A tank mix to be calculated. Areas in ha, volumes in L, L/ha, lengths in m. */
export interface MixJob {
  /** Ground area treated; null where nobody said, and then `litres` are given. */
  area: number | null
  /** Null where the area is. */
  waterPerHa: number | null
  /** Spray in all, where that was said and not the water for ground area. */
  litres?: number | undefined
  /** Single vines or places sprayed until they are wet. */
  spot?: boolean | undefined
  treated?: Treated | undefined
  /** Ids of the blocks of the ledger that it is for. */
  blocks?: readonly string[] | undefined
  /** The sprayer of the ledger that is used. */
  sprayer?: string | undefined
  /** Where the water comes from: typed, or by the calibration of the sprayer. */
  waterBy: 'typed' | 'calibration'
  tank: number | null
  even: boolean
  /** Clean water that stands in the tank already. */
  inTank: number
  dilutePerHa?: number | undefined
  /** m² of leaf wall per ha, as the mean over the area; undefined where it can't be had. */
  leafWallPerHa?: number | undefined
  /** Whether leaf wall or calibrated water differ from block to block, so that a mean was taken. */
  means: readonly string[]
  /** Step of the scale in kg and of the jug in L; undefined where amounts aren't rounded. */
  step?: { kg?: number; L?: number } | undefined
  /** L/min and km/h, and the width of a pass in m, where known. */
  flow?: number | undefined
  speed?: number | undefined
  width?: number | undefined
  /** Length of a row and distance of the vines in it, m, where all blocks agree. */
  rowLength?: number | undefined
  vineSpacing?: number | undefined
  parts: readonly MixPart[]
}

/** L of spray in all. */
export const volumeOf = ({ area, waterPerHa, litres }: MixJob): number => litres ?? area! * waterPerHa!

/** How much is treated, in the fields of a spray. */
export function extentFields({
  spot,
  treated,
}: Pick<MixJob, 'spot'> & { treated?: Treated | null | undefined }) {
  const { rows, vines, share } = treated ?? {}
  return {
    ...(spot ? { method: 'spot' as const } : {}),
    ...(rows ? { rows: { ...rows, unit: '' } } : {}),
    ...(vines ? { vines } : {}),
    ...(share ? { share: share * 100 } : {}),
  }
}
