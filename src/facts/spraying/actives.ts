import { activePerHa, type CopperCompound, copperPerHa } from '../../agronomy/spraying/active-content.ts'
import type { Product } from '../../records/kinds/product.ts'
import type { Application } from './applications.ts'

type Active = Product['actives'][number]

/** g of active substance in a kg or L of product; null where the record doesn't give it. */
export function contentOf(active: Active): number | null {
  if (!active.content) return null
  return active.content.unit === '%' ? active.content.value * 10 : active.content.value
}

export const isCopper = (active: Active) =>
  active.group === 'M01' || /\bcopper\b|\bbordeaux\b/i.test(active.name)
const isSulphur = (active: Active) => active.group === 'M02' || /\bsul(?:ph|f)ur\b/i.test(active.name)

export const holdsCopper = (product: Pick<Product, 'actives'>) => product.actives.some(isCopper)
export const holdsSulphur = (product: Pick<Product, 'actives'>) => product.actives.some(isSulphur)

/** Bicarbonates of potassium or sodium: they fizz with acid and give no lasting protection. */
export const isBicarbonate = (product: Pick<Product, 'actives'>) =>
  product.actives.some(({ name }) => /\b(?:bi|hydrogen\s*)carbonate\b/i.test(name))

/** Oils, by their kind or by an active substance such as `mineral oil`. */
export const isOilProduct = (product: Pick<Product, 'actives' | 'kind'>) =>
  /\boils?\b/i.test(product.kind) || product.actives.some(({ name }) => /\boils?\b/i.test(name))

/** Total kg of an active substance put on the block; null where dose or content isn't known. */
export const activeOf = ({ total }: Application, active: Active): number | null =>
  total ? kilogramsIn(total.value, active) : null

/** kg of copper metal in a kg or L of product, 0 where it holds none; null where a content isn't known. */
export function copperIn({ actives }: Pick<Product, 'actives'>): number | null {
  const each = actives.filter(isCopper).map((active) => kilogramsIn(1, active))
  return each.includes(null) ? null : each.reduce((sum: number, one) => sum + one!, 0)
}

/** kg of an active substance in kg or L of product, of copper the metal; null where the content isn't known. */
function kilogramsIn(productPerHa: number, active: Active): number | null {
  const content = contentOf(active)
  if (content === null) return null
  if (!isCopper(active) || active.as !== 'compound') return activePerHa({ productPerHa, content })
  const compound = compoundOf(active.name)
  return compound === null ? null : copperPerHa({ productPerHa, content, compound })
}

const COMPOUNDS: readonly (readonly [RegExp, CopperCompound])[] = [
  [/hydroxide/i, 'hydroxide'],
  [/oxychloride/i, 'oxychloride'],
  [/cuprous|copper\s*\(I\)\s*oxide|\boxide\b/i, 'copper(I) oxide'],
  [/tribasic/i, 'tribasic sulphate'],
  [/pentahydrate/i, 'sulphate pentahydrate'],
  [/octanoate/i, 'octanoate'],
]

/** The copper compound that a name means; null where it has no fixed share of metal. */
function compoundOf(name: string): CopperCompound | null {
  return COMPOUNDS.find(([pattern]) => pattern.test(name))?.[1] ?? null
}
