import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { areaOf } from '../../facts/block-size.ts'
import { figureText, rangeText } from '../../facts/sentences.ts'
import { stockOf } from '../../facts/spraying/stock.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import { yearOf } from '../../records/date.ts'
import type { Product } from '../../records/kinds/product.ts'
import { longDate } from '../../records/spoken-date.ts'
import { findingAt, OWN_RULE, PRACTICE, type Rule } from '../rule.ts'
import { type Slips, slipsIn, type Usual } from './usual.ts'

/** A label copied wrongly. */
export const unlikelyProduct: Rule = {
  name: 'unlikely-product',
  what: 'Figures of a product are far from those of labels: a dose range wider than ten times; a pre-harvest or re-entry interval far too long; a spray interval much longer than the product protects; active substances that add up to more than the whole. Or the price or stock is more than any grower has.',
  limits:
    'Usual are: a rate up to 25 kg or L/ha (100 for lime sulphur and oils); a concentration up to 50 g or mL/L; an interval of 2 to 45 d, its longer end up to 60 d; a gap of 1 to 90 d or none; a PHI up to 120 d; an REI of 1 to 168 h or none; water of 50 to 3000 L/ha; a price up to 3000 in a currency like the euro; a stock for up to 1000 sprays of the whole vineyard.',
  ...PRACTICE,
  check: ({ ledger, asOf }) =>
    slipsIn(ledger.products.values(), (slips, product) => {
      ofLabel(slips, product, asOf)
      ofStore(slips, ledger, product)
      for (const index of product.uses.keys()) ofUse(slips, product, index)
    }),
}

/** Ranges of what a product and each of its uses may have. */
const BEFORE_HARVEST = ['time before harvest', 0, 120, 'd'] as const
const PER_SEASON = ['number of applications', 1, 20] as const

const USUAL: Usual = {
  before_harvest: BEFORE_HARVEST,
  max_per_season: PER_SEASON,
  max_in_row: ['number in a row', 1, 10],
  protects: ['time of protection', 1, 30, 'd'],
  'rain.washed_off': ['rain to wash it off', 3, 120, 'mm'],
  'rain.fast': ['time to dry', 0, 24, 'h'],
  wind: ['wind limit', 1, 10, 'm/s'],
  'water.low': ['least water', 20, 2000, 'L/ha'],
  'temperature.high': ['upper temperature', 10, 42, 'C'],
}

function ofLabel(slips: Slips, product: Named<Product>, asOf: string): void {
  const { actives, before_harvest, re_entry, water } = product
  slips.compare(USUAL)
  // None, and `until dry`, are no figures; a gap of none means never in one tank.
  if (typeof re_entry === 'number' && re_entry > 0)
    slips.unusual(['re_entry'], re_entry, 're-entry time', [1, 168, 'h'])
  for (const [index, { gap }] of (product.keep_apart ?? []).entries())
    if (gap > 0) slips.unusual(['keep_apart', index, 'gap'], gap, 'gap between products', [1, 90, 'd'])
  if (water && water.low <= 2000) slips.unusual(['water'], water.high, 'most water', [50, 3000, 'L/ha'])
  if (before_harvest !== undefined && !Number.isInteger(before_harvest))
    slips.odd(
      ['before_harvest'],
      `${figureText(before_harvest, 'd')} before harvest: labels count whole days`,
      'write it in days, as `21 d`',
    )
  const contents = actives.flatMap(({ content }) => content ?? [])
  const sum = contents.reduce((all, { value, unit }) => all + (unit === '%' ? value * 10 : value), 0)
  if (sum > 1000 && contents.every(({ unit }) => unit !== 'g/L'))
    slips.odd(
      ['actives'],
      `its active substances add up to ${figureText(sum, 'g/kg')}, more than the whole`,
      'read the contents on the label again',
    )
  const until = product.authorisation?.until
  if (until !== undefined && Math.abs(yearOf(until) - yearOf(asOf)) > 20) {
    const message = `an authorisation until ${longDate(until)} is unlikely`
    slips.odd(['authorisation', 'until'], message, 'check the year')
  }
}

/** Figures of one use of a label that no label has, or that contradict each other. */
function ofUse(slips: Slips, { name, kind, actives, protects, uses }: Named<Product>, index: number): void {
  const { rate, concentration, interval, max_rate } = uses[index]!
  const wide = /\boil\b|herbicide|lime/i.test([kind, name, ...actives.map((one) => one.name)].join(' '))
  const [most, percent] = wide ? [150, 15] : [50, 5]
  const path = (key: string) => ['uses', index, key]
  const highest = concentration?.unit === '%' ? percent : most
  const figures: Usual = {
    'rate.high': ['dose', 0, wide ? 100 : 25, rate?.unit],
    'concentration.high': ['concentration', 0, highest, concentration?.unit],
    'interval.low': ['shortest interval', 2, 45, 'd'],
    before_harvest: BEFORE_HARVEST,
    max_per_season: PER_SEASON,
  }
  slips.compare(figures, ['uses', index])
  for (const [key, dose] of Object.entries({ rate, concentration }))
    if (dose && dose.low > 0 && dose.high > dose.low * 10)
      slips.odd(
        path(key),
        `the label's dose runs from ${figureText(dose.low)} to ${figureText(dose.high, dose.unit)}, a range of more than ten times`,
        'check the decimal points of both ends on the label',
      )
  if (max_rate && rate && max_rate.unit === rate.unit && max_rate.value < rate.low)
    slips.odd(
      path('max_rate'),
      `\`max_rate\`, ${figureText(max_rate.value, max_rate.unit)}, is below the lowest dose`,
      "read the highest dose on the label again: it can't be under the lowest",
    )
  if (!interval) return
  if (interval.high > 60)
    slips.odd(
      path('interval'),
      `an interval of up to ${figureText(interval.high, 'd')} is unlikely`,
      'read the interval between two sprays on the label again; it is in days',
    )
  if (protects !== undefined && (protects < interval.low / 3 || protects > interval.high * 2))
    slips.odd(
      ['protects'],
      `it protects ${figureText(protects, 'd')}, but the interval is ${rangeText(interval)}`,
      "`protects` is for how long one spray holds, `interval` the label's time between two; check both on the label",
    )
}

/** Currencies of roughly equal unit value. */
const ALIKE = new Set(['AUD', 'CAD', 'CHF', 'EUR', 'GBP', 'NZD', 'USD'])
/** Most sprays of the whole vineyard that a store can hold. */
const SPRAYS = 1000

/** A price or a store that no grower has: a point misplaced by three digits, not a dear product or a full shed. */
function ofStore(slips: Slips, { blocks }: Ledger, product: Named<Product>): void {
  const { price, stock } = product
  const area = [...blocks.values()].reduce((sum, block) => sum + areaOf(block), 0)
  const dose = stock ? largestDose(product, stock.unit) : 0
  const most = SPRAYS * dose * area
  if (price && ALIKE.has(price.currency))
    slips.unusual(['price'], price.value, 'price', [0, 3000, `${price.currency}/${price.per}`])
  if (stock && most > 0 && stock.value > most)
    slips.odd(
      ['stock'],
      `a stock of ${figureText(stock.value, stock.unit)} would last for ${figureText(stock.value / (dose * area))} sprays of the whole vineyard`,
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
