import { GROUP_LIMITS } from '../../agronomy/spraying/group-limits.ts'
import { type Treatment, treatmentFrequency } from '../../agronomy/spraying/treatment-frequency.ts'
import { areaOf } from '../block-size.ts'
import { groupedBy, statedTargets } from '../judged.ts'
import { activeOf } from './actives.ts'
import type { Application } from './applications.ts'
import { usesFor } from './label.ts'

/** Spray totals of an area, for a block or the vineyard. */
export type SprayTotals = ReturnType<typeof sumUp>

/** Adds up applications over an area in ha; over several blocks the index is weighted by their areas. */
export function sumUp(list: readonly Application[], area: number) {
  const frequency: Record<Nature | 'withoutReference', number> = {
    synthetic: 0,
    mineral: 0,
    biological: 0,
    unsaid: 0,
    withoutReference: 0,
  }
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
    /** `note`: what the body that sets a group's limit also advises. */
    groups: counts(list, ({ product }) => product.actives.flatMap(({ group }) => group ?? [])).map(
      ([group, applications]) => ({ group, applications, note: noteOf(group) }),
    ),
    targets: counts(list, ({ targets }) => targets).map(([target, sprays]) => ({ target, sprays })),
    treatmentFrequency: synthetic + mineral + biological + unsaid,
    /** The index by the nature in the products' records, and applications counted as 1 for lack of a reference dose. */
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

function productTotal(uses: readonly Application[], area: number) {
  const { id, name } = uses[0]!.product
  const units = new Set(uses.map(({ total }) => total?.unit))
  const missing =
    uses.find((use) => use.total === null)?.missing ??
    (units.size > 1 ? 'one unit: it is recorded in kg and in L' : null)
  const unit = uses[0]!.total?.unit
  const value = uses.reduce((sum, { total }) => sum + (total?.value ?? 0), 0)
  const known = missing === null
  return {
    product: id,
    name,
    /** Sprays that held it. */
    applications: spraysOf(uses),
    total: known ? { value, unit: unit! } : null,
    /** Per ha over the whole area of the block or the vineyard. */
    perHa: known ? { value: value / area, unit: `${unit}/ha` } : null,
    missing,
  }
}

function activeTotals(list: readonly Application[], area: number) {
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

/** Nature of a product from its record; `unsaid` where the record gives none. */
type Nature = 'synthetic' | 'mineral' | 'biological' | 'unsaid'

interface Frequency {
  index: number
  /** Applications counted as 1 because there is no reference dose. */
  withoutReference: number
}

/**
 * Treatment frequency index of applications on one block, without adjuvants. The reference dose is the label's
 * maximum for ground area against the target named; the lowest maximum where several or no targets are named.
 */
export function frequencyOf(list: readonly Application[]): Frequency {
  return treatmentFrequency(list.filter(({ product }) => product.kind !== 'adjuvant').map(treatment))
}

function treatment(one: Application): Treatment {
  const reference = referenceDose(one)
  if (one.perHa === null || one.share === null || reference === null || reference.unit !== one.perHa.unit)
    return { dose: 0, referenceDose: null, share: 1 }
  return { dose: one.perHa.value, referenceDose: reference.value, share: Math.min(1, one.share) }
}

function referenceDose(one: Application): { value: number; unit: string } | null {
  const named = usesFor(one.product, statedTargets(one))
  const uses = named.length > 0 ? named : usesFor(one.product, undefined)
  const doses = uses.flatMap(({ use }) =>
    use.max_rate
      ? [use.max_rate]
      : use.rate && !use.rate.unit.endsWith('leaf wall')
        ? [{ value: use.rate.high, unit: use.rate.unit }]
        : [],
  )
  const usable = doses.filter(({ value }) => value > 0)
  return usable.length === 0 ? null : usable.reduce((a, b) => (b.value < a.value ? b : a))
}
