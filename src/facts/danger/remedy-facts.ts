import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'
import type { Product } from '../../records/kinds/product.ts'
import { inLedgerUnits, unitsOf } from '../ledger-units.ts'
import { daysBeforeHarvest } from '../spraying/label.ts'
import { stockOf } from '../spraying/stock.ts'

/** What to know about a product against a disease on a day: pre-harvest interval, re-entry, stock left, groups. */
export function factsOf(
  ledger: Ledger,
  product: Named<Product>,
  { disease, date }: { disease: Disease; date: IsoDate },
): string[] {
  const days = daysBeforeHarvest(product, [disease])
  const stock = stockOf(ledger, product, date)
  const groups = product.actives.flatMap(({ group }) => group ?? [])
  const { low, high } = product.temperature ?? {}
  return [
    days === null ? 'PHI not recorded' : `PHI ${days} d`,
    reEntryText(product.re_entry),
    ...(stock?.left != null
      ? [`${inLedgerUnits(amountText(stock.left, stock.unit), unitsOf(ledger))} left`]
      : []),
    ...(groups.length > 0 ? [`group ${groups.join(', ')}`] : []),
    ...(low === undefined ? [] : [inLedgerUnits(`use at ${low} to ${high} °C`, unitsOf(ledger))]),
    ...(product.rain?.fast === undefined ? [] : [`needs ${product.rain.fast} h dry`]),
  ]
}

/** `2 kg`, or `672 g` where it is under one. */
export const amountText = (left: number, unit: string): string =>
  left >= 1 || left <= 0
    ? `${Number(left.toPrecision(3))} ${unit}`
    : `${Number((left * 1000).toPrecision(3))} ${unit === 'kg' ? 'g' : 'mL'}`

const reEntryText = (wait: Product['re_entry']): string =>
  wait === undefined ? 'REI not recorded' : typeof wait === 'number' ? `REI ${wait} h` : 'REI until dry'
