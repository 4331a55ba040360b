import type { Product } from '../../records/product.ts'
import { isOilProduct } from './actives.ts'
import { incompatible } from './incompatible.ts'

/** Whether nothing recorded or known keeps products out of one tank; an oil, or what a label keeps apart, goes alone. */
export const mayShareTank = (products: readonly Product[]): boolean =>
  products.length < 2 ||
  products.every(
    (one) =>
      (one.keep_apart ?? []).length === 0 &&
      !isOilProduct(one) &&
      products.every((other) => one === other || incompatible(one, other) === null),
  )
