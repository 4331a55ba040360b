import { GROUP_LIMITS } from '../../agronomy/spraying/group-limits.ts'
import type { Quantity } from '../../records/quantity.ts'
import { areaOf } from '../block-size.ts'
import { groupedBy } from '../judged.ts'
import { activeOf } from './actives.ts'
import type { Application } from './applications.ts'
import { frequencyOf, type Nature } from './frequency.ts'

interface ProductTotal {
  product: string
  name: string
  /** Sprays that held it. */
  applications: number
  total: Quantity | null
  /** Per ha over the whole area of the block or the vineyard. */
  perHa: Quantity | null
  missing: string | null
}

interface ActiveTotal {
  active: string
  group: string | null
  perHa: Quantity | null
  missing: string | null
}

/** Spray totals of an area, for a block or the vineyard. */
export interface SprayTotals {
  area: Quantity
  sprays: number
  products: ProductTotal[]
  actives: ActiveTotal[]
  /** `note`: what the body that sets a group's limit also advises. */
  groups: { group: string; applications: number; note: string | null }[]
  targets: { target: string; sprays: number }[]
  treatmentFrequency: number
  /** The index by the nature in the products' records, and applications counted as 1 for lack of a reference dose. */
  frequency: Record<Nature, number> & { withoutReference: number }
}

/** Adds up applications over an area in ha; over several blocks the index is weighted by their areas. */
export function sumUp(list: readonly Application[], area: number): SprayTotals {
  const frequency = { synthetic: 0, mineral: 0, biological: 0, unsaid: 0, withoutReference: 0 }
  for (const ofBlock of groupedBy(list, ({ block }) => block.id).values()) {
    const weight = areaOf(ofBlock[0]!.block) / area
    for (const [nature, some] of groupedBy(ofBlock, ({ product }) => product.nature ?? 'unsaid')) {
      const { index, withoutReference } = frequencyOf(some)
      frequency[nature as Nature] += index * weight
      frequency.withoutReference += withoutReference
    }
  }
  const { synthetic, mineral, biological, unsaid } = frequency
  return {
    area: { value: area, unit: 'ha' },
    sprays: spraysOf(list),
    products: [...groupedBy(list, ({ product }) => product.id).values()].map((uses) =>
      productTotal(uses, area),
    ),
    actives: activeTotals(list, area),
    groups: counts(list, ({ product }) => product.actives.flatMap(({ group }) => group ?? [])).map(
      ([group, applications]) => ({ group, applications, note: noteOf(group) }),
    ),
    targets: counts(list, ({ targets }) => targets).map(([target, sprays]) => ({ target, sprays })),
    treatmentFrequency: synthetic + mineral + biological + unsaid,
    frequency,
  }
}

function noteOf(group: string): string | null {
  const limit = GROUP_LIMITS.find((each) => each.group === group && each.note !== undefined)
  return limit ? `${limit.note} (${limit.body}, ${limit.year})` : null
}

const spraysOf = (list: readonly Application[]) => new Set(list.map(({ spray }) => spray)).size

/** The number of sprays that contain each item named by an application. */
function counts(
  list: readonly Application[],
  thingsOf: (one: Application) => readonly string[],
): [string, number][] {
  const sprays = new Map<string, Set<object>>()
  for (const one of list) {
    for (const thing of thingsOf(one)) sprays.set(thing, (sprays.get(thing) ?? new Set()).add(one.spray))
  }
  return [...sprays].map(([thing, set]): [string, number] => [thing, set.size])
}

function productTotal(uses: readonly Application[], area: number): ProductTotal {
  const { id, name } = uses[0]!.product
  const applications = spraysOf(uses)
  const units = new Set(uses.map(({ total }) => total?.unit))
  const missing =
    uses.find((use) => use.total === null)?.missing ??
    (units.size > 1 ? 'one unit: it is recorded in kg and in L' : null)
  if (missing !== null) return { product: id, name, applications, total: null, perHa: null, missing }
  const unit = uses[0]!.total!.unit
  const value = uses.reduce((sum, { total }) => sum + total!.value, 0)
  const perHa = { value: value / area, unit: `${unit}/ha` }
  return { product: id, name, applications, total: { value, unit }, perHa, missing: null }
}

function activeTotals(list: readonly Application[], area: number): ActiveTotal[] {
  const parts = list.flatMap((one) => one.product.actives.map((active) => ({ one, active })))
  return [...groupedBy(parts, ({ active }) => active.name).values()].map((uses) => {
    const { name, group } = uses[0]!.active
    const kilograms = uses.map(({ one, active }) => activeOf(one, active))
    const known = kilograms.every((one) => one !== null)
    const sum = kilograms.reduce((total: number, one) => total + (one ?? 0), 0)
    return {
      active: name,
      group: group ?? null,
      perHa: known ? { value: sum / area, unit: 'kg/ha' } : null,
      missing: known ? null : 'the content of a product, or a dose',
    }
  })
}
