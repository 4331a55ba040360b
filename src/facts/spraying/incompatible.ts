import type { Product } from '../../records/product.ts'
import { holdsCopper, isBicarbonate } from './actives.ts'

/** Why two products don't go into one tank, and who says so. */
interface Incompatible {
  why: string
  source: string
}

type Told = Pick<Product, 'actives' | 'kind'>

const named = (product: Told, group: string, name: RegExp) =>
  product.actives.some((active) => active.group === group || name.test(active.name))

/** Phosphonates (FRAC P07): salts of phosphorous acid, and fosetyl. */
const isPhosphonate = (product: Told) => named(product, 'P07', /phosphon|phosphite|phosphorous acid|fosetyl/i)

export const isCaptan = (product: Told) => product.actives.some(({ name }) => /\bcaptan\b/i.test(name))

/** Acids, and what acidifies the water. Fatty acids and their salts (soaps) are none here. */
const isAcidic = (product: Told) =>
  isPhosphonate(product) ||
  product.actives.some(({ name }) => /\bacid\b/i.test(name) && !/\bfatty acid/i.test(name)) ||
  /\bacidif/i.test(product.kind)

const PAIRS: readonly (Incompatible & {
  one: (product: Told) => boolean
  other: (product: Told) => boolean
})[] = [
  {
    one: holdsCopper,
    other: isPhosphonate,
    why: 'the acid phosphonate frees copper, which burns leaves and fruit',
    source: 'Shane & Sundin, Michigan State University 2011',
  },
  {
    one: holdsCopper,
    other: isCaptan,
    why: 'copper and captan react, and can injure the vine',
    source: 'Shane & Sundin, Michigan State University 2011',
  },
  {
    one: isBicarbonate,
    other: isAcidic,
    why: 'acid drives the carbon dioxide out of bicarbonate: it foams, and neither works',
    source: 'common practice, no source',
  },
]

/** Why two products should not be mixed, beside what their labels say; null where nothing is known against it. */
export function incompatible(a: Told, b: Told): Incompatible | null {
  const found = PAIRS.find(({ one, other }) => (one(a) && other(b)) || (one(b) && other(a)))
  return found ? { why: found.why, source: found.source } : null
}
