import { say } from '../../facts/say.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import { yearOf } from '../../records/date.ts'
import type { Product } from '../../records/product.ts'
import type { Rule } from '../rule.ts'
import { unlikelyStore } from './unlikely-store.ts'
import { BEFORE_HARVEST, PER_SEASON, unlikelyUse } from './unlikely-use.ts'
import { type Slips, slipsOf } from './usual.ts'

const NAME = 'unlikely-product'

/** A label copied wrongly. */
export const unlikelyProduct: Rule = {
  name: NAME,
  about: {
    what: 'Figures of a product are far from those of labels: a dose range wider than ten times; a pre-harvest or re-entry interval far too long; a spray interval much longer than the product protects; active substances that add up to more than the whole. Or the price or stock is more than any grower has.',
    limits:
      'rate up to 25 kg or L/ha (100 for lime sulphur and oils), concentration up to 50 g or mL/L, interval 2-45 d and up to 60, gap up to 90 d, before harvest up to 120 d, re-entry 1-168 h or none, water 50-3000 L/ha, price up to 3000 in a currency like the euro, a store of 1000 sprays of the whole vineyard',
    source: 'common practice, no source',
    basis: 'common practice',
  },
  check: ({ ledger, asOf }) =>
    [...ledger.products.values()].flatMap((product) => {
      const slips = slipsOf(NAME, product)
      ofLabel(slips, product, asOf)
      unlikelyStore(slips, ledger, product)
      for (const index of product.uses.keys()) unlikelyUse(slips, product, index)
      return slips.found
    }),
}

function ofLabel(slips: Slips, product: Named<Product>, asOf: string): void {
  const { before_harvest, max_per_season, re_entry, rain, water, temperature } = product
  const hours = typeof re_entry === 'number' && re_entry > 0 ? re_entry : undefined
  const washing = { low: 3, high: 120, unit: 'mm', what: 'rain to wash it off' }
  slips.unusual(['before_harvest'], before_harvest, BEFORE_HARVEST)
  slips.unusual(['max_per_season'], max_per_season, PER_SEASON)
  slips.unusual(['max_in_row'], product.max_in_row, { low: 1, high: 10, what: 'number in a row' })
  slips.unusual(['protects'], product.protects, { low: 1, high: 30, unit: 'd', what: 'time of protection' })
  slips.unusual(['rain', 'washed_off'], rain?.washed_off, washing)
  slips.unusual(['re_entry'], hours, { low: 1, high: 168, unit: 'h', what: 're-entry time' })
  slips.unusual(['rain', 'fast'], rain?.fast, { low: 0, high: 24, unit: 'h', what: 'time to dry' })
  const apart = { low: 0, high: 90, unit: 'd', what: 'gap between products' }
  for (const [index, { gap }] of (product.keep_apart ?? []).entries())
    slips.unusual(['keep_apart', index, 'gap'], gap, apart)
  slips.unusual(['wind'], product.wind, { low: 1, high: 10, unit: 'm/s', what: 'wind limit' })
  slips.unusual(['water'], water?.low, { low: 20, high: 2000, unit: 'L/ha', what: 'least water' })
  if (water && water.low <= 2000)
    slips.unusual(['water'], water.high, { low: 50, high: 3000, unit: 'L/ha', what: 'most water' })
  slips.unusual(['temperature'], temperature?.high, {
    low: 10,
    high: 42,
    unit: 'C',
    what: 'upper temperature',
  })
  if (before_harvest !== undefined && !Number.isInteger(before_harvest))
    slips.odd(['before_harvest'], `${say(before_harvest, 'd')} before harvest: labels count whole days`)
  const contents = product.actives.flatMap(({ content }) => content ?? [])
  const sum = contents.reduce((all, { value, unit }) => all + (unit === '%' ? value * 10 : value), 0)
  if (sum > 1000 && contents.every(({ unit }) => unit !== 'g/L'))
    slips.odd(['actives'], `its active substances add up to ${say(sum, 'g/kg')}, more than the whole`)
  const until = product.authorisation?.until
  if (until !== undefined && Math.abs(yearOf(until) - yearOf(asOf)) > 20)
    slips.odd(['authorisation', 'until'], `an authorisation until ${until} is unlikely`)
}
