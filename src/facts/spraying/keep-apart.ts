import type { Product } from '../../records/product.ts'
import { holdsSulphur, isOilProduct } from './actives.ts'
import { isCaptan } from './incompatible.ts'

/** Days between oil and sulphur or captan where no label says more: UC IPM Pest Notes 7494, year not known (read). */
export const OIL_AND_SULPHUR = 14

type Named = Product & { id: string }

/** How long two products are kept apart on the same vines, in either order. */
interface Gap<One extends Named> {
  days: number
  /** Where a label gives it; null where that is the common one of oil and sulphur. */
  label: { product: One; index: number } | null
}

/** The longest gap that a label, or common practice, asks for between two products; null where none is. */
export function gapBetween<One extends Named>(a: One, b: One): Gap<One> | null {
  const gaps: Gap<One>[] = [[a, b] as const, [b, a] as const].flatMap(([product, other]) =>
    (product.keep_apart ?? []).flatMap(({ from, gap }, index) =>
      means(from, other) ? [{ days: gap, label: { product, index } }] : [],
    ),
  )
  const longest = gaps.toSorted((one, other) => other.days - one.days)[0]
  if (longest) return longest
  const burns = [a, b].some(
    (product) => (holdsSulphur(product) || isCaptan(product)) && !isOilProduct(product),
  )
  return burns && (isOilProduct(a) || isOilProduct(b)) ? { days: OIL_AND_SULPHUR, label: null } : null
}

/** Whether the word of a label means a product: its id, its kind, or an active in it. */
function means(word: string, product: Named): boolean {
  const wanted = plain(word)
  return (
    plain(product.id) === wanted ||
    plain(product.name) === wanted ||
    plain(product.kind) === wanted ||
    product.actives.some(({ name }) => ` ${plain(name)} `.includes(` ${wanted} `))
  )
}

const plain = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .trim()
    .replace(/\bsulfur\b/g, 'sulphur')
    .replace(/\boils\b/g, 'oil')
