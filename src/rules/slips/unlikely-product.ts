import { say } from '../../facts/say.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import { yearOf } from '../../records/date.ts'
import type { Product } from '../../records/product.ts'
import type { Rule } from '../rule.ts'
import { unlikelyStore } from './unlikely-store.ts'
import { unlikelyUse } from './unlikely-use.ts'
import { odd, unusual } from './usual.ts'

const NAME = 'unlikely-product'

/** A label copied wrongly. */
export const unlikelyProduct: Rule = {
  name: NAME,
  about: {
    what: 'Figures of a product are outside what labels have: a range of dose wider than ten times, days before harvest or hours of re-entry far too long, an interval that is longer than what it protects by much, an active whose contents pass the whole, a target that is nearly the name of a disease. Or its price or store is beyond what any grower has.',
    limits:
      'rate up to 25 kg or L/ha (100 for lime sulphur and oils), concentration up to 50 g or mL/L, interval 2-45 d and up to 60, gap up to 90 d, before harvest up to 120 d, re-entry 1-168 h or none, water 50-3000 L/ha, price up to 3000 in a currency like the euro, a store of 1000 sprays of the whole vineyard',
    source: 'common practice, no source',
    basis: 'common practice',
  },
  check: ({ ledger, asOf }) =>
    [...ledger.products.values()].flatMap((product) => [
      ...ofLabel(product, asOf),
      ...unlikelyStore(ledger, product),
      ...product.uses.flatMap((_, index) => unlikelyUse(product, index)),
    ]),
}

function ofLabel(product: Named<Product>, asOf: string): Finding[] {
  const until = product.authorisation?.until
  const contents = product.actives.map(({ content }) =>
    content ? (content.unit === '%' ? content.value * 10 : content.value) : 0,
  )
  const sum = contents.reduce((all, one) => all + one, 0)
  const { temperature, rain } = product
  return [
    ...unusual(NAME, product, [
      {
        path: ['before_harvest'],
        value: product.before_harvest,
        low: 0,
        high: 120,
        unit: 'd',
        what: 'time before harvest',
      },
      {
        path: ['max_per_season'],
        value: product.max_per_season,
        low: 1,
        high: 20,
        what: 'number of applications',
      },
      { path: ['max_in_row'], value: product.max_in_row, low: 1, high: 10, what: 'number in a row' },
      {
        path: ['protects'],
        value: product.protects,
        low: 1,
        high: 30,
        unit: 'd',
        what: 'time of protection',
      },
      {
        path: ['rain', 'washed_off'],
        value: rain?.washed_off,
        low: 3,
        high: 120,
        unit: 'mm',
        what: 'rain to wash it off',
      },
      {
        path: ['re_entry'],
        value: typeof product.re_entry === 'number' && product.re_entry > 0 ? product.re_entry : undefined,
        low: 1,
        high: 168,
        unit: 'h',
        what: 're-entry time',
      },
      { path: ['rain', 'fast'], value: rain?.fast, low: 0, high: 24, unit: 'h', what: 'time to dry' },
      ...(product.keep_apart ?? []).map(({ gap }, index) => ({
        path: ['keep_apart', index, 'gap'],
        value: gap,
        low: 0,
        high: 90,
        unit: 'd',
        what: 'gap between products',
      })),
      { path: ['wind'], value: product.wind, low: 1, high: 10, unit: 'm/s', what: 'wind limit' },
      { path: ['water'], value: product.water?.low, low: 20, high: 2000, unit: 'L/ha', what: 'least water' },
      {
        path: ['water'],
        value: product.water && product.water.low <= 2000 ? product.water.high : undefined,
        low: 50,
        high: 3000,
        unit: 'L/ha',
        what: 'most water',
      },
      {
        path: ['temperature'],
        value: temperature?.high,
        low: 10,
        high: 42,
        unit: 'C',
        what: 'upper temperature',
      },
    ]),
    ...(product.before_harvest !== undefined && !Number.isInteger(product.before_harvest)
      ? [
          odd(
            NAME,
            product,
            ['before_harvest'],
            `${say(product.before_harvest, 'd')} before harvest: labels count whole days`,
          ),
        ]
      : []),
    ...(sum > 1000 && contents.every((_, index) => product.actives[index]!.content?.unit !== 'g/L')
      ? [odd(NAME, product, ['actives'], `its actives come to ${say(sum, 'g/kg')}, more than the whole`)]
      : []),
    ...(until !== undefined && yearOf(until) > yearOf(asOf) + 20
      ? [odd(NAME, product, ['authorisation', 'until'], `an authorisation until ${until} is unlikely`)]
      : []),
  ]
}
