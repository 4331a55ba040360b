import type { Ledger, Named, SprayEntry } from '../../ledger/read/ledger.ts'
import { addAll } from '../../records/add-all.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Product } from '../../records/kinds/product.ts'
import type { Quantity } from '../../records/quantity.ts'
import { areaOf, treatedAreaOf } from '../block-size.ts'
import { doseOf, isConcentrated, leafWallOf, SMALL } from './dose.ts'
import type { DoseForms } from './label.ts'

/** One product of one spray on one block, with its amounts. */
export interface Application {
  spray: SprayEntry
  /** Index of the product in the spray. */
  part: number
  block: Named<Block>
  product: Named<Product>
  /** Targets: as written, else all that the label names. */
  targets: readonly string[]
  /** ha treated on this block; null where `missing` says why. */
  area: number | null
  /** Share of the block that was treated, 0 to 1. */
  share: number | null
  /** Spray applied for ground area, L/ha. */
  waterPerHa: number | null
  /** Product for ground area treated, kg/ha or L/ha. */
  perHa: Quantity | null
  /** Product in the spray, g/L or mL/L. */
  concentration: Quantity | null
  /** Total product on this block, kg or L. */
  total: Quantity | null
  /** Why a figure above is missing, in words. */
  missing: string | null
}

/**
 * Every application of the given sprays, oldest first. Sprays with an unknown block or product are left out:
 * they have their own finding.
 */
export function applicationsOf(
  { sprays: every, blocks, products }: Ledger,
  sprays: readonly SprayEntry[] = every,
): Application[] {
  const found: Application[] = []
  for (const spray of sprays) {
    let worked = known.get(spray)
    if (worked?.blocks !== blocks || worked.products !== products) {
      worked = { blocks, products, all: applicationsIn(spray, { blocks, products }) }
      known.set(spray, worked)
    }
    addAll(found, worked.all)
  }
  return found
}

/** By spray, since every rule and every part of a report needs them. */
const known = new WeakMap<SprayEntry, Worked>()

interface Worked extends Pick<Ledger, 'blocks' | 'products'> {
  all: Application[]
}

function applicationsIn(spray: SprayEntry, ledger: Pick<Ledger, 'blocks' | 'products'>): Application[] {
  const blocks = spray.blocks.map((id) => ledger.blocks.get(id)).filter((block) => block !== undefined)
  const areas = blocks.map((block) => treatedAreaOf(spray, block))
  const whole = areas.includes(null) ? null : areas.reduce((sum: number, area) => sum + area!, 0)
  return blocks.flatMap((block, index) =>
    spray.products.flatMap((part, partIndex) => {
      const product = ledger.products.get(part.product)
      if (!product) return []
      const area = areas[index] ?? null
      return [
        {
          spray,
          part: partIndex,
          block,
          product,
          targets: part.for ?? [...new Set(product.uses.map((use) => use.against))],
          area,
          share: area === null ? null : area / areaOf(block),
          ...doseOf({ spray, part, product, block, area, whole }),
        },
      ]
    }),
  )
}

/** An application's dose in every form that a label may limit. */
export function doseForms(one: Application): DoseForms {
  const { spray, block, product, perHa, waterPerHa, concentration } = one
  if (!perHa) return { perHa, perLeafWall: null, concentration }
  const unit = perHa.unit.startsWith('kg') ? 'kg' : 'L'
  const wall = leafWallOf(block)
  const volume = isConcentrated(product) && spray.dilute !== undefined ? spray.dilute : waterPerHa
  return {
    perHa,
    perLeafWall:
      wall === null ? null : { value: (perHa.value * 10_000) / wall, unit: `${unit}/ha leaf wall` },
    concentration: volume === null ? null : { value: (perHa.value * 1000) / volume, unit: SMALL[unit] },
  }
}
