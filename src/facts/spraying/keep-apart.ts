import type { Product } from '../../records/kinds/product.ts'
import { holdsCopper, holdsSulphur, isBicarbonate, isOilProduct } from './actives.ts'

/** Days between oil and sulphur or captan where no label says more: UC IPM Pest Notes 7494, year not known (read). */
export const OIL_AND_SULPHUR = 14

type Named = Product & { id: string }

/** How long two products are kept apart on the same vines, in either order. */
interface Gap<One extends Named> {
  days: number
  /** The label that sets it; null for the general gap between oil and sulphur. */
  label: { product: One; index: number } | null
}

/** The longest gap that a label or common practice requires between two products; null where none. */
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

/** Whether a word on a label means a product: its id, its kind, or an active substance in it. */
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

type Contents = Pick<Product, 'actives' | 'kind'>

const named = (product: Contents, group: string, name: RegExp) =>
  product.actives.some((active) => active.group === group || name.test(active.name))

/** Phosphonates (FRAC P07): salts of phosphorous acid, and fosetyl. */
const isPhosphonate = (product: Contents) =>
  named(product, 'P07', /phosphon|phosphite|phosphorous acid|fosetyl/i)

const isCaptan = (product: Contents) => product.actives.some(({ name }) => /\bcaptan\b/i.test(name))

/** Acids and water acidifiers. Fatty acids and their salts (soaps) don't count. */
const isAcidic = (product: Contents) =>
  isPhosphonate(product) ||
  product.actives.some(({ name }) => /\bacid\b/i.test(name) && !/\bfatty acid/i.test(name)) ||
  /\bacidif/i.test(product.kind)

const MICHIGAN = 'Shane & Sundin, Michigan State University 2011'
const FIZZES = 'acid drives the carbon dioxide out of bicarbonate: it foams, and neither works'

/** Two kinds of product that can't share a tank, why, and the source. */
const PAIRS = [
  [holdsCopper, isPhosphonate, 'the acid phosphonate frees copper, which burns leaves and fruit', MICHIGAN],
  [holdsCopper, isCaptan, 'copper and captan react, and can injure the vine', MICHIGAN],
  [isBicarbonate, isAcidic, FIZZES, 'common practice, no source'],
] as const

/** Why two products should not be mixed, apart from what their labels say, and the source; null where no reason is known. */
export function incompatible(a: Contents, b: Contents): { why: string; source: string } | null {
  const found = PAIRS.find(([one, other]) => (one(a) && other(b)) || (one(b) && other(a)))
  return found ? { why: found[2], source: found[3] } : null
}

/** Whether no known reason keeps products from sharing a tank; an oil goes alone. */
export const mayShareTank = (products: readonly (Product & { id: string })[]): boolean =>
  products.length < 2 ||
  products.every(
    (one) =>
      !isOilProduct(one) &&
      products.every(
        (other) => one === other || (incompatible(one, other) === null && gapBetween(one, other) === null),
      ),
  )
