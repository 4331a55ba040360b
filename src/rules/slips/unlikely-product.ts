import { areaOf } from '../../facts/block-size.ts'
import { say, saySpan } from '../../facts/say.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import { yearOf } from '../../records/date.ts'
import type { Product } from '../../records/product.ts'
import type { Rule } from '../rule.ts'
import { type Slips, slipsOf } from './usual.ts'

/** A label copied wrongly. */
export const unlikelyProduct: Rule = {
  name: 'unlikely-product',
  about: {
    what: 'Figures of a product are far from those of labels: a dose range wider than ten times; a pre-harvest or re-entry interval far too long; a spray interval much longer than the product protects; active substances that add up to more than the whole. Or the price or stock is more than any grower has.',
    limits:
      'Usual are: a rate up to 25 kg or L/ha (100 for lime sulphur and oils); a concentration up to 50 g or mL/L; an interval from 2-45 d up to 60 d; a gap of 1 to 90 d or none; a PHI up to 120 d; an REI of 1 to 168 h or none; water of 50 to 3000 L/ha; a price up to 3000 in a currency like the euro; a stock for up to 1000 sprays of the whole vineyard.',
    source: 'common practice, no source',
    basis: 'common practice',
  },
  check: ({ ledger, asOf }) =>
    [...ledger.products.values()].flatMap((product) => {
      const slips = slipsOf(product)
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
  const apart = { low: 1, high: 90, unit: 'd', what: 'gap between products' }
  // None means never in one tank.
  for (const [index, { gap }] of (product.keep_apart ?? []).entries())
    if (gap > 0) slips.unusual(['keep_apart', index, 'gap'], gap, apart)
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
    slips.odd(
      ['before_harvest'],
      `${say(before_harvest, 'd')} before harvest: labels count whole days`,
      'write it in days, as `21 d`',
    )
  const contents = product.actives.flatMap(({ content }) => content ?? [])
  const sum = contents.reduce((all, { value, unit }) => all + (unit === '%' ? value * 10 : value), 0)
  if (sum > 1000 && contents.every(({ unit }) => unit !== 'g/L'))
    slips.odd(
      ['actives'],
      `its active substances add up to ${say(sum, 'g/kg')}, more than the whole`,
      'read the contents on the label again',
    )
  const until = product.authorisation?.until
  if (until !== undefined && Math.abs(yearOf(until) - yearOf(asOf)) > 20)
    slips.odd(['authorisation', 'until'], `an authorisation until ${until} is unlikely`, 'check the year')
}

/** The range for a pre-harvest interval, which a product and each use may have. */
const BEFORE_HARVEST = { low: 0, high: 120, unit: 'd', what: 'time before harvest' }
const PER_SEASON = { low: 1, high: 20, what: 'number of applications' }

/** Figures of one use of a label that no label has, or that contradict each other. */
function unlikelyUse(slips: Slips, product: Named<Product>, index: number): void {
  const { rate, concentration, interval, max_rate, before_harvest, max_per_season } = product.uses[index]!
  const { protects } = product
  const wide = /\boil\b|herbicide|lime/i.test(
    `${product.kind} ${product.name} ${product.actives.map(({ name }) => name).join(' ')}`,
  )
  const at = (key: string) => ['uses', index, key]
  if (rate)
    slips.unusual(at('rate'), rate.high, { low: 0, high: wide ? 100 : 25, unit: rate.unit, what: 'dose' })
  if (concentration) {
    const high = concentration.unit === '%' ? (wide ? 15 : 5) : wide ? 150 : 50
    const usual = { low: 0, high, unit: concentration.unit, what: 'concentration' }
    slips.unusual(at('concentration'), concentration.high, usual)
  }
  slips.unusual(at('interval'), interval?.low, { low: 2, high: 45, unit: 'd', what: 'shortest interval' })
  slips.unusual(at('before_harvest'), before_harvest, BEFORE_HARVEST)
  slips.unusual(at('max_per_season'), max_per_season, PER_SEASON)
  for (const [key, dose] of Object.entries({ rate, concentration }))
    if (dose && dose.low > 0 && dose.high > dose.low * 10)
      slips.odd(
        at(key),
        `the label's dose runs from ${say(dose.low)} to ${say(dose.high, dose.unit)}, a range of more than ten times`,
        'check the decimal points of both ends on the label',
      )
  if (max_rate && rate && max_rate.unit === rate.unit && max_rate.value < rate.low)
    slips.odd(
      at('max_rate'),
      `\`max_rate\`, ${say(max_rate.value, max_rate.unit)}, is below the lowest dose`,
      "read the highest dose on the label again: it can't be under the lowest",
    )
  if (!interval) return
  if (interval.high > 60)
    slips.odd(
      at('interval'),
      `an interval of up to ${say(interval.high, 'd')} is unlikely`,
      'read the interval between two sprays on the label again; it is in days',
    )
  if (protects !== undefined && (protects < interval.low / 3 || protects > interval.high * 2))
    slips.odd(
      ['protects'],
      `it protects ${say(protects, 'd')}, but the interval is ${saySpan(interval)}`,
      "`protects` is for how long one spray holds, `interval` the label's time between two; check both on the label",
    )
}

/** Currencies of roughly equal unit value. */
const ALIKE = new Set(['AUD', 'CAD', 'CHF', 'EUR', 'GBP', 'NZD', 'USD'])
/** Most sprays of the whole vineyard that a store can hold. */
const SPRAYS = 1000

/** A price or a store that no grower has: a point misplaced by three digits, not a dear product or a full shed. */
function unlikelyStore(slips: Slips, { blocks }: Ledger, product: Named<Product>): void {
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
      'check the unit (g or kg, mL or L) and the decimal point of the stock',
    )
}

/** The label's largest dose per hectare, in the unit of the store; 0 where it gives none. */
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
