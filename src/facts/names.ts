import type { Finding } from '../ledger/read/finding.ts'
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

/** A word that may be an id: no part of a path. */
const ID = /(?<![\w/.-])[a-z0-9]+(?:-[a-z0-9]+)*(?![\w/-]|\.\w)/g

/** Ids that can't be a figure, a unit or a plain word of a finding, like `6`, `ha` or `water`; the others stay as they are. */
const SURE = { block: /^(?=.*[a-z]{3}).*-/, product: /[a-z]{4}/ }

/** What a finding says, with names in place of ids, each where it is first named; copper the metal stays. */
export function inNames(
  { name, message }: Pick<Finding, 'name' | 'message'>,
  { blocks, products }: Pick<Names, 'blocks' | 'products'>,
): string {
  const left = new Map([
    ...(name.startsWith('copper-') ? [] : [...products].filter(([id]) => SURE.product.test(id))),
    ...[...blocks].filter(([id]) => SURE.block.test(id)),
  ])
  return message.replace(ID, (id) => {
    const called = left.get(id) ?? id
    left.delete(id)
    return called
  })
}
