import { requireNotNegative, requirePositive } from '../statistics/require-number.ts'

/**
 * Active substance per hectare in a dose of product.
 * @param dose productPerHa in kg or L per ha; content in g of active per kg or L of product
 * @returns kg of active per ha
 * @throws RangeError where the dose is negative or the content not positive
 * Source: Waxman, Agrochemical and Pesticide Safety Handbook (excerpt; author from memory).
 */
export function activePerHa(dose: { productPerHa: number; content: number }): number {
  requireNotNegative({ productPerHa: dose.productPerHa })
  requirePositive({ content: dose.content })
  return (dose.productPerHa * dose.content) / 1000
}

/** Standard atomic weights, abridged (IUPAC), from memory. */
const WEIGHT = { Cu: 63.546, O: 15.999, H: 1.008, Cl: 35.45, S: 32.06, C: 12.011 }

const COMPOUNDS = {
  hydroxide: { Cu: 1, O: 2, H: 2 },
  oxychloride: { Cu: 2, Cl: 1, O: 3, H: 3 },
  'copper(I) oxide': { Cu: 2, O: 1 },
  'tribasic sulphate': { Cu: 4, S: 1, O: 10, H: 6 },
  'sulphate pentahydrate': { Cu: 1, S: 1, O: 9, H: 10 },
  octanoate: { Cu: 1, C: 16, H: 30, O: 4 },
} as const satisfies Record<string, Partial<Record<keyof typeof WEIGHT, number>>>

export type CopperCompound = keyof typeof COMPOUNDS

/**
 * Copper metal in a pure compound, by weight, from the atomic weights. Bordeaux mixture has no value: it
 * depends on the mix.
 * @returns share, 0 to 1
 */
function copperShare(compound: CopperCompound): number {
  const atoms: Partial<Record<keyof typeof WEIGHT, number>> = COMPOUNDS[compound]
  const total = Object.entries(atoms).reduce(
    (sum, [element, count]) => sum + WEIGHT[element as keyof typeof WEIGHT] * count,
    0,
  )
  return ((atoms.Cu ?? 0) * WEIGHT.Cu) / total
}

/**
 * Copper metal per hectare in a dose of product. Labels as a rule already state the metal: leave `compound`
 * out then, so that nothing is multiplied twice.
 * @param dose productPerHa in kg or L per ha; content in g per kg or L of product, of the metal, or of the
 *   compound where one is named
 * @returns kg of copper per ha
 * @throws RangeError where the dose is negative or the content not positive
 * Source: Implementing Regulation (EU) 2018/1981 counts the metal.
 */
export function copperPerHa(dose: {
  productPerHa: number
  content: number
  compound?: CopperCompound
}): number {
  requireNotNegative({ productPerHa: dose.productPerHa })
  requirePositive({ content: dose.content })
  const metal = dose.compound === undefined ? 1 : copperShare(dose.compound)
  return (dose.productPerHa * dose.content * metal) / 1000
}
