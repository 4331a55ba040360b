import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Product } from '../../records/kinds/product.ts'
import { applicationsOf } from './applications.ts'

export interface Stock {
  /** kg or L in the record; null where it gives none. */
  counted: number | null
  unit: 'kg' | 'L'
  /** Used in sprays after the count; null where the count has no date, so nothing can be subtracted. */
  usedSince: number | null
  /** kg or L left after the sprays; null where the record gives none or another unit was used. */
  left: number | null
}

/** Stock of a product on a day. Without `stocked`, the record's figure is used unchanged. */
export function stockOf(ledger: Ledger, product: Named<Product>, asOf: IsoDate): Stock | null {
  const { stock, stocked } = product
  if (!stock) return null
  const unit = stock.unit as 'kg' | 'L'
  if (stocked === undefined) return { counted: stock.value, unit, usedSince: null, left: stock.value }
  const after = ledger.sprays.filter((spray) => spray.date > stocked && spray.date <= asOf)
  const uses = applicationsOf(ledger, after).filter((use) => use.product.id === product.id)
  if (uses.some(({ total }) => total === null || total.unit !== unit))
    return { counted: stock.value, unit, usedSince: null, left: null }
  const usedSince = uses.reduce((sum, { total }) => sum + total!.value, 0)
  return { counted: stock.value, unit, usedSince, left: stock.value - usedSince }
}
