import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { say } from '../../facts/say.ts'
import type { OverLabel } from '../../facts/spraying/over-label.ts'
import type { IsoDate } from '../../records/date.ts'
import type { MixProduct } from './amounts.ts'

/** The products of a mix whose dose is above a most: that of the label, or one that was typed. */
export function overInMix(products: readonly MixProduct[], date: IsoDate): OverLabel[] {
  return products.flatMap(({ product, limits }) => {
    const over = limits.find(({ value, high }) => value !== null && exceeds(value, high))
    if (!over) return []
    const whose = over.place === '--max' ? 'the most given' : "the label's most"
    return [
      { product, date, why: `${say(over.value!, over.unit)}, ${whose} is ${say(over.high, over.unit)}` },
    ]
  })
}
