import { leafWallPerHa } from '../../agronomy/spraying/canopy.ts'
import { type Dose, resolveDose } from '../../agronomy/spraying/dose.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Product } from '../../records/kinds/product.ts'
import type { TankPart } from '../../records/kinds/spray.ts'
import type { Quantity } from '../../records/quantity.ts'
import { isUnmeasuredSpot } from '../block-size.ts'

/** Formulation codes of products that are weighed; all others are measured by volume. */
const WEIGHED = new Set('DP EG EP GR GW PA RB SG SP ST TB TC WG WP WT'.split(' '))

interface DoseFigures {
  waterPerHa: number | null
  perHa: Quantity | null
  concentration: Quantity | null
  total: Quantity | null
  missing: string | null
}

interface Applied {
  spray: Pick<SprayEntry, 'water' | 'dilute' | 'method' | 'rows' | 'vines' | 'share' | 'blocks'>
  part: Pick<TankPart, 'rate' | 'amount' | 'concentration'>
  product: Pick<Product, 'form' | 'kind' | 'uses'>
  block: Pick<Block, 'row_spacing' | 'canopy'>
  /** ha treated on the block, and on all blocks of the spray together; null where unknown. */
  area: number | null
  whole: number | null
}

/** A dose as written, on a block: per ground area, per volume of spray, and in total. */
export function doseOf(applied: Applied): DoseFigures {
  const { spray, part, product, block, area, whole } = applied
  const waterPerHa = waterOf(spray.water, whole)
  const unit = unitOf(part, product)
  const nothing = { waterPerHa, perHa: null, concentration: null, total: null }
  if (isUnmeasuredSpot(spray)) return ofSpot(applied, unit)
  if (area === null || whole === null) return { ...nothing, missing: 'the number of rows of the block' }
  if (whole === 0) return { ...nothing, missing: 'a row of the block among those named' }
  const dose = asDose(part, unit, { whole, dilute: isConcentrated(product) ? spray.dilute : undefined })
  const { perHa, concentration, missing } = resolveDose(dose, {
    waterPerHa: waterPerHa ?? undefined,
    dilutePerHa: spray.dilute,
    leafWallPerHa: leafWallOf(block) ?? undefined,
  })
  if (perHa === null) return { ...nothing, missing: MISSING[missing!] }
  return {
    waterPerHa,
    perHa: { value: perHa, unit: `${unit}/ha` },
    concentration: concentration === null ? null : { value: concentration, unit: SMALL[unit] },
    total: { value: perHa * area, unit },
    missing: null,
  }
}

/** A spot spray of unknown extent: its concentration is known, its dose for ground area isn't. */
function ofSpot({ spray, part }: Applied, unit: 'kg' | 'L'): DoseFigures {
  const litres = spray.water?.unit === 'L' ? spray.water.value : null
  const { amount, concentration } = part
  const perLitre = concentration
    ? perLitreOf(concentration)
    : amount && litres !== null
      ? (amount.value * 1000) / litres
      : null
  const used = amount?.value ?? (perLitre === null || litres === null ? null : (perLitre * litres) / 1000)
  return {
    waterPerHa: null,
    perHa: null,
    concentration: perLitre === null ? null : { value: perLitre, unit: SMALL[unit] },
    // With several blocks, nobody knows how much went where.
    total: used === null || spray.blocks.length > 1 ? null : { value: used, unit },
    missing: 'how much was treated (`vines`, `rows` or `share`)',
  }
}

/** Whether a dose per volume rises when less than the dilute volume is applied; a wetter's doesn't. */
export function isConcentrated(product: Pick<Product, 'kind' | 'uses'>): boolean {
  return product.kind !== 'adjuvant' && product.uses.every((use) => use.dilute !== 'no')
}

const MISSING = {
  waterPerHa: 'the water of the spray',
  dilutePerHa: 'the volume that wets to run-off (`dilute`)',
  leafWallPerHa: 'the height of the canopy of the block',
} as const

/** Water in L/ha, from a figure for ground area or from a total over the treated area. */
export function waterOf(water: Quantity | undefined, whole: number | null): number | null {
  if (water === undefined) return null
  if (water.unit === 'L/ha') return water.value
  return whole === null || whole === 0 ? null : water.value / whole
}

/** The unit a product is measured in: as its dose is written, else by its formulation. */
export function unitOf(part: Applied['part'], product: Pick<Product, 'form'>): 'kg' | 'L' {
  const written = part.rate?.unit ?? part.amount?.unit ?? part.concentration?.unit ?? ''
  if (/^(kg|g)\b/.test(written)) return 'kg'
  if (/^(L|mL)\b/.test(written)) return 'L'
  return WEIGHED.has(product.form) ? 'kg' : 'L'
}

/** A written dose, prepared for the arithmetic. `whole` is the treated area in ha, `dilute` in L/ha. */
export function asDose(
  part: Applied['part'],
  unit: 'kg' | 'L',
  { whole, dilute }: { whole: number; dilute: number | undefined },
): Dose {
  if (part.rate) {
    const { value, unit: per } = part.rate
    return per.endsWith('leaf wall')
      ? { unit, basis: 'leaf-wall', per10000m2: value }
      : { unit, basis: 'ground', perHa: value }
  }
  if (part.amount) return { unit, basis: 'ground', perHa: part.amount.value / whole }
  const perLitre = perLitreOf(part.concentration!)
  return { unit, basis: dilute === undefined ? 'spray' : 'dilute', perLitre }
}

/** g or mL in a litre, of a concentration in g/L, mL/L or %. */
export const perLitreOf = ({ value, unit }: Quantity): number => (unit === '%' ? value * 10 : value)

/** The unit in which a product that is weighed or measured stands in a litre of spray. */
export const SMALL = { kg: 'g/L', L: 'mL/L' } as const

/** m² of leaf wall per ha of a block; null where the height of its canopy isn't recorded. */
export function leafWallOf({ row_spacing, canopy }: Pick<Block, 'row_spacing' | 'canopy'>): number | null {
  const treatedHeight = canopy?.height
  return treatedHeight === undefined ? null : leafWallPerHa({ rowSpacing: row_spacing, treatedHeight })
}
