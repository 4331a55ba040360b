import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { figureText } from '../../facts/sentences.ts'
import { stockOf } from '../../facts/spraying/stock.ts'
import { longDate } from '../../records/spoken-date.ts'
import { findingAt, OWN_RULE, type Rule } from '../rule.ts'

/** More of a product used than there was. */
export const stockBelowUse: Rule = {
  name: 'stock-below-use',
  what: 'Sprays since the stock was counted used more than there was. Not checked without the day of the count (`stocked`).',
  limits: "The product's `stock` and `stocked` count.",
  ...OWN_RULE,
  check: ({ ledger, asOf }) =>
    [...ledger.products.values()].flatMap((product) => {
      const stock = stockOf(ledger, product, asOf)
      if (stock?.usedSince == null || !exceeds(stock.usedSince, stock.counted!)) return []
      return findingAt(product, ['stock'], {
        message: `${figureText(stock.usedSince, stock.unit)} of ${product.name} used since ${longDate(product.stocked!)}, but there was only ${figureText(stock.counted!, stock.unit)}`,
        help: 'count again and write `stock` and `stocked`, or look for a wrong dose',
      })
    }),
}
