import { say, saySpan } from '../../facts/say.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import { nearest } from '../../ledger/read/read-entry.ts'
import { DISEASES } from '../../records/disease.ts'
import type { Product } from '../../records/product.ts'
import { findingAt } from '../rule.ts'
import { odd, type Usual, unusual } from './usual.ts'

const NAME = 'unlikely-product'

/** Figures of one use of a label that no label has, or that contradict each other. */
export function unlikelyUse(product: Named<Product>, index: number): Finding[] {
  const use = product.uses[index]!
  const { protects } = product
  const wide = /\boil\b|herbicide|lime/i.test(
    `${product.kind} ${product.name} ${product.actives.map(({ name }) => name).join(' ')}`,
  )
  const at = (key: string) => ['uses', index, key]
  const figures: Usual[] = [
    {
      path: at('rate'),
      value: use.rate?.high,
      low: 0,
      high: wide ? 100 : 25,
      unit: use.rate?.unit ?? '',
      what: 'dose',
    },
    {
      path: at('concentration'),
      value: use.concentration?.high,
      low: 0,
      high: use.concentration?.unit === '%' ? (wide ? 15 : 5) : wide ? 150 : 50,
      unit: use.concentration?.unit ?? '',
      what: 'concentration',
    },
    {
      path: at('interval'),
      value: use.interval?.low,
      low: 2,
      high: 45,
      unit: 'd',
      what: 'shortest interval',
    },
    {
      path: at('before_harvest'),
      value: use.before_harvest,
      low: 0,
      high: 120,
      unit: 'd',
      what: 'time before harvest',
    },
    {
      path: at('max_per_season'),
      value: use.max_per_season,
      low: 1,
      high: 20,
      what: 'number of applications',
    },
  ]
  const spans = (['rate', 'concentration'] as const).flatMap((key) => {
    const range = use[key]
    return range && range.low > 0 && range.high > range.low * 10
      ? [
          odd(
            NAME,
            product,
            at(key),
            `the label's dose runs from ${say(range.low)} to ${say(range.high, range.unit)}, more than ten times`,
          ),
        ]
      : []
  })
  const cap =
    use.max_rate && use.rate && use.max_rate.unit === use.rate.unit && use.max_rate.value < use.rate.low
  return [
    ...nearlyDisease(product, index),
    ...unusual(NAME, product, figures),
    ...spans,
    ...(cap
      ? [
          odd(
            NAME,
            product,
            at('max_rate'),
            `the most, ${say(use.max_rate!.value, use.max_rate!.unit)}, is below the least dose`,
          ),
        ]
      : []),
    ...(use.interval && use.interval.high > 60
      ? [
          odd(
            NAME,
            product,
            at('interval'),
            `an interval of up to ${say(use.interval.high, 'd')} is unlikely`,
          ),
        ]
      : []),
    ...(protects !== undefined &&
    use.interval &&
    (protects < use.interval.low / 3 || protects > use.interval.high * 2)
      ? [
          odd(
            NAME,
            product,
            ['protects'],
            `it protects ${say(protects, 'd')}, but the interval is ${saySpan(use.interval)}`,
          ),
        ]
      : []),
  ]
}

/** A target that is all but the name of a disease, so that no cover would be counted for it. */
function nearlyDisease(product: Named<Product>, index: number): Finding[] {
  const { against } = product.uses[index]!
  const near = DISEASES.some((disease) => disease === against) ? null : nearest(against, DISEASES)
  if (near === null) return []
  return [
    findingAt(product, ['uses', index, 'against'], {
      name: NAME,
      level: 'warning',
      message: `\`${against}\` is none of the diseases of which cover is told`,
      help: near,
    }),
  ]
}
