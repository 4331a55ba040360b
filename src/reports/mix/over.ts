import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { say } from '../../facts/say.ts'
import { type OverLabel, overLabelOf, withSpray } from '../../facts/spraying/over-label.ts'
import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { MixProduct } from './amounts.ts'

/** The products of a mix that are over their label in dose, or would be one time too many, too much or too late. */
export function overWith(dose: readonly OverLabel[], ledger: Ledger, entry: SprayEntry): OverLabel[] {
  const told = new Set(dose.map(({ product }) => product))
  const rest = overLabelOf(withSpray(ledger, entry), entry)
  return [...dose, ...rest.filter(({ product }) => !told.has(product))]
}

/** The products of a mix whose dose is above a most: that of the label, or one that was typed. */
export function overInMix(products: readonly MixProduct[], date: IsoDate): OverLabel[] {
  return products.flatMap(({ product, limits }) => {
    const over = limits.find(({ value, high }) => value !== null && exceeds(value, high))
    if (!over) return []
    const whose = over.place === '--max' ? 'the maximum given' : "the label's maximum"
    return [
      { product, date, why: `${say(over.value!, over.unit)}, ${whose} is ${say(over.high, over.unit)}` },
    ]
  })
}
