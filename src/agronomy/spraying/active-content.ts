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
