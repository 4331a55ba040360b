import { areaOf } from '../../facts/block-size.ts'
import { say } from '../../facts/say.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { Product } from '../../records/product.ts'
import type { Slips } from './usual.ts'

/** Currencies whose unit buys about as much as another's. */
const ALIKE = new Set(['AUD', 'CAD', 'CHF', 'EUR', 'GBP', 'NZD', 'USD'])
/** Sprays of the whole vineyard that a store holds at most. */
const SPRAYS = 1000

/** A price or a store that no grower has: a point misplaced by three digits, not a dear product or a full shed. */
export function unlikelyStore(slips: Slips, { blocks }: Ledger, product: Named<Product>): void {
  const { price, stock } = product
  const area = [...blocks.values()].reduce((sum, block) => sum + areaOf(block), 0)
  const dose = stock ? largestDose(product, stock.unit) : 0
  const most = SPRAYS * dose * area
  if (price && ALIKE.has(price.currency))
    slips.unusual(['price'], price.value, {
      low: 0,
      high: 3000,
      unit: `${price.currency}/${price.per}`,
      what: 'price',
    })
  if (stock && most > 0 && stock.value > most)
    slips.odd(
      ['stock'],
      `a stock of ${say(stock.value, stock.unit)} would last for ${say(stock.value / (dose * area))} sprays of the whole vineyard`,
    )
}

/** Most of a product that its label lets a hectare have, in the unit of the store; 0 where it doesn't say. */
function largestDose({ uses, water }: Named<Product>, unit: string): number {
  const doses = uses.flatMap(({ rate, max_rate, concentration }) => {
    const inSpray = unit === 'kg' ? 'g/L' : 'mL/L'
    const perLitre =
      concentration?.unit === inSpray
        ? concentration.high
        : concentration?.unit === '%'
          ? concentration.high * 10
          : 0
    if (max_rate?.unit === `${unit}/ha`) return [max_rate.value]
    return [rate?.unit === `${unit}/ha` ? rate.high : 0, (perLitre * (water?.high ?? 0)) / 1000]
  })
  return Math.max(0, ...doses)
}
