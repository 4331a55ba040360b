import type { Ledger } from '../ledger/read/ledger.ts'
import { listed } from './sentences.ts'

/** Names of a ledger's records, for reports that hold ids. */
export interface Names {
  site: string
  blocks: ReadonlyMap<string, string>
  products: ReadonlyMap<string, string>
}

/** The names by id; none where a report was made without a ledger. */
export function namesOf(ledger: Ledger | undefined): Names {
  const named = (records: Iterable<[string, { name: string }]>) =>
    new Map([...records].map(([id, { name }]) => [id, name]))
  return {
    site: ledger?.vineyard.name ?? '',
    blocks: named(ledger?.blocks ?? []),
    products: named(ledger?.products ?? []),
  }
}

/** Products by their names, as a list in a sentence. */
export const productNames = ({ products }: Pick<Ledger, 'products'>, ids: readonly string[]): string =>
  listed(ids.map((id) => products.get(id)?.name ?? id))
