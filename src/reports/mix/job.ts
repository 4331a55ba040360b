import { secondsOver, speedForVolume } from '../../agronomy/spraying/calibration.ts'
import { leafWallPerHa, rowVolumePerHa } from '../../agronomy/spraying/canopy.ts'
import { typedIn, type Units } from '../../facts/ledger-units.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Product } from '../../records/kinds/product.ts'
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

/** `rowbook note spray …` for a part or spot spray, as it runs; null where nothing of it is on record to write down. */
export function recordCommand(job: MixJob, units: Units): string | null {
  const { blocks = [], spot, treated, sprayer, parts } = job
  if (blocks.length === 0 || (!spot && !treated) || parts.some(({ product }) => !product)) return null
  const targets = [...new Set(parts.flatMap(({ targets }) => targets ?? []))]
  const { rows, vines, share } = treated ?? {}
  return [
    'rowbook note spray',
    spot ? ' --method spot' : '',
    ...blocks.map((id) => ` --block ${id}`),
    rows ? ` --rows ${rows.low === rows.high ? rows.low : `${rows.low}-${rows.high}`}` : '',
    vines ? ` --vines ${vines}` : '',
    share ? ` --share "${figure(share * 100)} %"` : '',
    ` --water "${typedIn({ value: volumeOf(job), unit: 'L' }, units)}"`,
    sprayer === undefined ? '' : ` --sprayer ${sprayer}`,
    ...parts.map(({ id, dose }) => ` --product "${id}=${typedIn(dose, units)}"`),
    ...targets.map((target) => ` --for ${target}`),
  ].join('')
}

/** As many digits as a grower would type. */
const figure = (value: number) => String(Number(value.toPrecision(6)))

/**
 * The pace that brings out the water of the mix by the sprayer's flow; without a flow, the speed as measured. Seconds
 * for a row or a vine are null where the blocks' records don't say, or differ; a spot spray has no speed.
 */
export function paceOf(
  job: MixJob,
): { speed: Quantity | null; perRow: number | null; perVine: number | null } | null {
  const { flow, width, waterPerHa, rowLength, vineSpacing, spot, treated } = job
  if (spot) {
    if (flow === undefined || !treated?.vines) return null
    return { speed: null, perRow: null, perVine: (volumeOf(job) / treated.vines / flow) * 60 }
  }
  const speed =
    flow !== undefined && width !== undefined && waterPerHa !== null
      ? speedForVolume({ volumePerHa: waterPerHa, flow, width })
      : job.speed
  if (speed === undefined) return null
  const over = (metres: number | undefined) =>
    metres === undefined ? null : secondsOver({ distance: metres, speed })
  return { speed: { value: speed, unit: 'km/h' }, perRow: over(rowLength), perVine: over(vineSpacing) }
}

/** What a dose may depend on besides the ground, as the mean over the area; m, m²/ha and m³/ha. */
export type Canopy = ReturnType<typeof canopyOf>

/** Row spacing, leaf wall and row volume: as typed, else as the mean of the blocks over their area. */
export function canopyOf(
  typed: { rowSpacing?: number | undefined; height?: number | undefined; width?: number | undefined },
  areas: readonly { block: Named<Block>; area: number }[],
) {
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
