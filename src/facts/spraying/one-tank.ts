import type { Product } from '../../records/product.ts'
import { isOilProduct } from './actives.ts'
import { incompatible } from './incompatible.ts'
import { gapBetween } from './keep-apart.ts'

/** Whether nothing recorded or known keeps products out of one tank; an oil goes alone. */
export const mayShareTank = (products: readonly (Product & { id: string })[]): boolean =>
  products.length < 2 ||
  products.every(
    (one) =>
      !isOilProduct(one) &&
      products.every(
        (other) => one === other || (incompatible(one, other) === null && gapBetween(one, other) === null),
      ),
  )
