import { longestReEntry } from '../../agronomy/spraying/re-entry.ts'
import { daysBeforeHarvest, shortestInterval } from '../../facts/spraying/label.ts'
import { earliestPick, waitOver } from '../../facts/spraying/spray-end.ts'
import { type Stock, stockOf } from '../../facts/spraying/stock.ts'
import type { Ledger, Named, SprayEntry } from '../../ledger/read/ledger.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import type { Product } from '../../records/product.ts'
import type { MixProduct } from './amounts.ts'

/** What follows from a mix when it is sprayed out at the time given. */
export interface MixAfter {
  date: IsoDate
  /** Minutes after midnight at which spraying ends; null where no time was given, which counts as the end of the day. */
  ends: number | null
  /** ISO time with offset; null where no label gives hours. */
  reEntry: { until: string; date: IsoDate; minutes: number; hours: number } | null
  /** Products whose labels give no hours of re-entry. */
  reEntryUnknown: string[]
  /** First day of picking by the longest wait among the products, by both readings. */
  harvest: { calendar: IsoDate; cautious: IsoDate; product: string; days: number } | null
  harvestUnknown: string[]
  next: { product: string; date: IsoDate | null; days: number | null }[]
  stock: ({ product: string; after: number | null } & Stock)[]
}

/** Works out what follows, from the records of the products. */
export function afterMix(
  spray: Pick<SprayEntry, 'date' | 'time'>,
  parts: readonly { product: Named<Product>; targets: readonly string[] | undefined }[],
  ledger: Ledger,
): Omit<MixAfter, 'stock'> {
  const reEntry = longestReEntry(parts.map(({ product }) => product.re_entry ?? null))
  const over = reEntry.hours === null ? null : waitOver(spray, reEntry.hours, ledger.vineyard.timezone)
  const waits = parts.map(({ product, targets }) => ({ product, days: daysBeforeHarvest(product, targets) }))
  const longest = waits.filter((wait) => wait.days !== null).toSorted((a, b) => b.days! - a.days!)[0]
  return {
    date: spray.date,
    ends: spray.time?.end ?? null,
    reEntry: over && { until: over.iso, date: over.date, minutes: over.minutes, hours: reEntry.hours! },
    reEntryUnknown: parts.filter(({ product }) => product.re_entry === undefined).map(idOf),
    harvest: longest
      ? { ...earliestPick(spray, longest.days!), product: longest.product.id, days: longest.days! }
      : null,
    harvestUnknown: waits.filter((wait) => wait.days === null).map(idOf),
    next: parts.map(({ product, targets }) => {
      const interval = shortestInterval(product, targets)
      return {
        product: product.id,
        date: interval && addDays(spray.date, Math.ceil(interval.days)),
        days: interval?.days ?? null,
      }
    }),
  }
}

const idOf = ({ product }: { product: Named<Product> }) => product.id

/** The store of each product before and after the mix. */
export function stockAfter(
  ledger: Ledger,
  asOf: IsoDate,
  products: readonly Pick<MixProduct, 'product' | 'total'>[],
): MixAfter['stock'] {
  return products.flatMap(({ product: id, total }) => {
    const product = ledger.products.get(id)
    const stock = product && stockOf(ledger, product, asOf)
    if (!stock) return []
    const after = stock.left === null || stock.unit !== total.unit ? null : stock.left - total.value
    return [{ product: id, after, ...stock }]
  })
}
