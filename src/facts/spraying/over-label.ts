import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import { isUnmeasuredSpot } from '../block-size.ts'
import { groupedBy, statedTargets } from '../judged.ts'
import { both, say } from '../say.ts'
import { type Application, applicationsOf } from './applications.ts'
import { doseForms } from './dose-forms.ts'
import { type DoseLimit, impliedLimits, inFormOf, limitsFor } from './label.ts'

/** What a grower is told where a spray was over the label: its waiting times were set for the label's dose. */
export const OVER_LABEL =
  'over the label: do not pick or re-enter until your adviser or the authority has told you'

/** One limit of the label that an application is over. */
export interface DoseOver {
  limit: DoseLimit
  value: number
}

/**
 * The label's limits of dose that an application is over, one for each form. Where the entry names several targets, or
 * none, the use that allows most decides, since the dose is allowed under it.
 */
export function dosesOver(one: Application): DoseOver[] {
  const dose = doseForms(one)
  const targets = statedTargets(one)
  const written = limitsFor(one.product, targets)
  const isImplied = isUnmeasuredSpot(one.spray) && written.every(({ form }) => form !== 'concentration')
  const limits = isImplied ? [...written, ...impliedLimits(one.product, targets)] : written
  const compared = limits.flatMap((limit) => {
    const value = inFormOf(limit, dose)
    return value === null ? [] : [{ limit, value }]
  })
  return [...groupedBy(compared, ({ limit }) => `${limit.form} ${limit.unit}`).values()].flatMap((same) => {
    const most = same.reduce((a, b) => (b.limit.high > a.limit.high ? b : a))
    return exceeds(most.value, most.limit.high) ? [most] : []
  })
}

/** A product of a spray that was used over its label, and what it was over. */
export interface OverLabel {
  product: string
  date: string
  /** In words: `60 kg/ha, the label's most is 6 kg/ha`. */
  why: string
}

/** `Soda Salt is over the label …`, as a sentence. */
export function sayOverLabel(over: readonly OverLabel[]): string {
  const what = over.map(({ product, why }) => `${product} (${why})`)
  return `${OVER_LABEL[0]!.toUpperCase()}${OVER_LABEL.slice(1)}: ${both(what)}.`
}

const known = new WeakMap<
  SprayEntry,
  { products: Ledger['products']; blocks: Ledger['blocks']; over: OverLabel[] }
>()

/**
 * The products of a spray whose dose was over the label, on any of its blocks. The waiting times of such a spray are
 * unknown: before harvest (PHI) and for re-entry (REI) a label speaks of its own doses.
 */
export function overLabelOf(ledger: Ledger, spray: SprayEntry): OverLabel[] {
  const before = known.get(spray)
  if (before && before.products === ledger.products && before.blocks === ledger.blocks) return before.over
  const all = applicationsOf(ledger, [spray]).flatMap((one) =>
    dosesOver(one).map(
      ({ limit, value }): OverLabel => ({
        product: one.product.id,
        date: spray.date,
        why: `${say(value, limit.unit)}, the label's most is ${say(limit.high, limit.unit)}`,
      }),
    ),
  )
  const over = [...new Map(all.map((one) => [one.product, one])).values()]
  known.set(spray, { products: ledger.products, blocks: ledger.blocks, over })
  return over
}
