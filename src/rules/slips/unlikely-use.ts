import { say, saySpan } from '../../facts/say.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { Product } from '../../records/product.ts'
import type { Slips } from './usual.ts'

/** What a product as a whole and one of its uses may have alike. */
export const BEFORE_HARVEST = { low: 0, high: 120, unit: 'd', what: 'time before harvest' }
export const PER_SEASON = { low: 1, high: 20, what: 'number of applications' }

/** Figures of one use of a label that no label has, or that contradict each other. */
export function unlikelyUse(slips: Slips, product: Named<Product>, index: number): void {
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
      )
  if (max_rate && rate && max_rate.unit === rate.unit && max_rate.value < rate.low)
    slips.odd(at('max_rate'), `\`max_rate\`, ${say(max_rate.value, max_rate.unit)}, is below the lowest dose`)
  if (!interval) return
  if (interval.high > 60)
    slips.odd(at('interval'), `an interval of up to ${say(interval.high, 'd')} is unlikely`)
  if (protects !== undefined && (protects < interval.low / 3 || protects > interval.high * 2))
    slips.odd(['protects'], `it protects ${say(protects, 'd')}, but the interval is ${saySpan(interval)}`)
}
