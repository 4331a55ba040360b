import type { Ledger } from '../../ledger/read/ledger.ts'
import { yearOf } from '../../records/date.ts'

/**
 * The earliest season whose sprays bear on the totals of a season: back to the first year of the copper limit, and
 * to the day on which a product in the store was counted. A year's first days lie in the season before, at most.
 */
export function firstSeasonOfTotals(ledger: Ledger, season: number): number {
  const copper = ledger.vineyard.limits?.copper
  const years = copper?.rolling === undefined ? undefined : copper.years
  const counted = [...ledger.products.values()].flatMap(({ stock, stocked }) =>
    stock && stocked !== undefined ? [yearOf(stocked) - 1] : [],
  )
  return Math.min(years === undefined ? season : season - Math.ceil(years) - 1, ...counted)
}
