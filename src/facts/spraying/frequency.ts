import { type Treatment, treatmentFrequency } from '../../agronomy/spraying/treatment-frequency.ts'
import { statedTargets } from '../judged.ts'
import type { Application } from './applications.ts'
import { usesFor } from './label.ts'

/** Nature of a product from its record; `unsaid` where the record gives none. */
export type Nature = 'synthetic' | 'mineral' | 'biological' | 'unsaid'

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
