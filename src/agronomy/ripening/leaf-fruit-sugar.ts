import { requirePositive } from '../statistics/require-number.ts'

/**
 * °Brix that fruit came to at so much leaf: 20 - 45 / x, a line through trials (r 0.78) of one variety, which the source
 * does not name legibly. It shows the shape, little leaf starves the fruit, and foretells no block.
 * Source: Martinson, Cornell University, slides.
 *
 * @param leafArea cm² of leaf for each g of fruit
 * @throws RangeError when it is not above zero
 */
export function sugarByLeaf(leafArea: number): number {
  requirePositive({ leafArea })
  return 20 - 45 / leafArea
}

/**
 * Leaf area for the fruit it feeds: 8 to 12 cm² a g is usual on a single canopy (Kliewer & Dokoozlian 2005, AJEV, 0.8-1.2
 * m² a kg; wineskills.co.uk, 8 to 12).
 *
 * @param options leafArea, m²; fruit, kg, of the same vines
 * @returns cm² of leaf for each g of fruit
 * @throws RangeError when one is not above zero
 */
export function leafToFruit({ leafArea, fruit }: { leafArea: number; fruit: number }): number {
  requirePositive({ leafArea, fruit })
  return (10 * leafArea) / fruit
}
