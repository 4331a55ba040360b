import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { judged } from '../../facts/judged.ts'
import { say } from '../../facts/say.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** Above this wind drift is a high hazard, m/s. */
const STRONG = 6

/** Sprayed in too much wind. */
export const windy: Rule = {
  name: 'windy',
  about: {
    what: 'The wind was above the limit that the vineyard or a product in the tank names: an error, since that limit is law or label. Without a limit, wind above 6 m/s is a warning. Several countries stop at about 5 m/s: write your own limit.',
    limits: "`limits: wind` in vineyard.yaml, the product's `wind`; else 6 m/s",
    source: 'Waikato Regional Council plan, chart 6.2.9 (above 6 m/s high hazard)',
    basis: 'read',
  },
  check: (book) =>
    judged(book, 'sprays').flatMap((spray) => {
      const wind = spray.weather?.wind
      if (wind === undefined) return []
      const { vineyard, products } = book.ledger
      const limits = [
        ...(vineyard.limits?.wind === undefined
          ? []
          : [{ most: vineyard.limits.wind, whose: mention(vineyard, ['limits', 'wind']) }]),
        ...spray.products.flatMap(({ product: id }) => {
          const product = products.get(id)
          return product?.wind === undefined
            ? []
            : [{ most: product.wind, whose: mention(product, ['wind']) }]
        }),
      ].sort((a, b) => a.most - b.most)
      const limit = limits[0] ?? { most: STRONG, whose: 'Waikato Regional Council, chart 6.2.9' }
      if (!exceeds(wind, limit.most)) return []
      return [
        findingAt(spray, ['weather', 'wind'], {
          name: 'windy',
          level: limits.length > 0 ? 'error' : 'warning',
          message: `wind of ${say(wind, 'm/s')}, above ${say(limit.most, 'm/s')} (${limit.whose}): the spray drifts`,
          help: 'check the figure and its unit (km/h is 3.6 times m/s); do not spray in such wind',
        }),
      ]
    }),
}
