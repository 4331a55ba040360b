import { daysBeforeHarvest, shortestInterval } from '../../facts/spraying/label.ts'
import type { OverLabel } from '../../facts/spraying/over-label.ts'
import { reEntryEnd, withoutReEntry } from '../../facts/spraying/re-entry.ts'
import { earliestPick } from '../../facts/spraying/spray-end.ts'
import { type Stock, stockOf } from '../../facts/spraying/stock.ts'
import type { Ledger, Named, SprayEntry } from '../../ledger/read/ledger.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import type { Product } from '../../records/kinds/product.ts'
import type { MixProduct } from './amounts.ts'

/** What follows from a mix when it is sprayed out at the time given. */
export type MixAfter = ReturnType<typeof afterMix> & { stock: ReturnType<typeof stockAfter> }

/** Works out what follows, from the records of the products. Over the label no date follows. */
export function afterMix(
  spray: Pick<SprayEntry, 'date' | 'time'>,
  parts: readonly { product: Named<Product>; targets: readonly string[] | undefined }[],
  ledger: Ledger,
  overLabel: readonly OverLabel[] = [],
) {
  const products = parts.map(({ product }) => product)
  const over = overLabel.length > 0 ? null : reEntryEnd(spray, products, { zone: ledger.vineyard.timezone })
  const waits = parts.map(({ product, targets }) => ({ product, days: daysBeforeHarvest(product, targets) }))
  const longest = waits.filter((wait) => wait.days !== null).toSorted((a, b) => b.days! - a.days!)[0]
  return {
    date: spray.date,
    /** Minutes after midnight at which spraying ends; null where no time was given, which counts as the end of the day. */
    ends: spray.time?.end ?? null,
    /** ISO time with offset, and hours (null: until dry); null where no label says, or over the label. */
    reEntry: over && { until: over.iso, date: over.date, minutes: over.minutes, hours: over.hours },
    /** Products whose labels give no hours of re-entry. */
    reEntryUnknown: withoutReEntry(products),
    /** First day of picking by the longest wait among the products, by both readings. */
    harvest:
      longest && overLabel.length === 0
        ? { ...earliestPick(spray, longest.days!), product: longest.product.id, days: longest.days! }
        : null,
    /** What is over the label: no waiting time holds for it, and none is named. */
    overLabel,
    harvestUnknown: waits.flatMap(({ product, days }) => (days === null ? [product.id] : [])),
    next: parts.map(({ product, targets }) => {
      const interval = shortestInterval(product, targets)
      return {
        product: product.id,
        date: overLabel.length > 0 ? null : interval && addDays(spray.date, Math.ceil(interval.days)),
        days: interval?.days ?? null,
      }
    }),
  }
}

/** The store of each product before and after the mix. */
export function stockAfter(
  ledger: Ledger,
  asOf: IsoDate,
  products: readonly Pick<MixProduct, 'product' | 'total'>[],
): ({ product: string; after: number | null } & Stock)[] {
  return products.flatMap(({ product: id, total }) => {
    const product = ledger.products.get(id)
    const stock = product && stockOf(ledger, product, asOf)
    if (!stock) return []
    const after = stock.left === null || stock.unit !== total?.unit ? null : stock.left - total.value
    return [{ product: id, after, ...stock }]
  })
}
