import { describe, expect, test } from 'vitest'
import {
  daysBeforeHarvest,
  daysBeforeHarvestPath,
  doseLimits,
  inFormOf,
  limitsFor,
  shortestInterval,
  usesFor,
} from '../../../src/facts/spraying/label.ts'
import { frequencyOf } from '../../../src/facts/spraying/sum.ts'
import { overRate } from '../../../src/rules/label/dose.ts'
import { findingsOf } from '../../ledger/in-memory.ts'
import { type Files, label } from '../../rules/limits/both-sides.ts'
import { applied, bookOf, sprayed } from '../book.ts'

/** A product with these uses: `powdery, rate: 1-2 kg/ha; downy, rate: 1 kg/ha`. */
const text = (uses: string, of: Parameters<typeof label>[0] = {}) => {
  const [first, ...others] = uses.split('; ').map((use) => {
    const at = use.indexOf(', ')
    return `against: ${use.slice(0, at)}, ${use.slice(at + 2)}`
  })
  const rest = others.map((use) => `  - { ${use} }\n`).join('')
  return label({ ...of, more: `${rest}${of.more ?? ''}` }).replace(
    /against: powdery, [^\n]* \}\n/,
    `${first} }\n`,
  )
}
const product = (uses: string, more = '') =>
  bookOf('', { 'seasons/2026/sprays.yaml': null, 'products/extra.yaml': text(uses, { more }) }).products.get(
    'extra',
  )!

const THREE =
  'powdery, rate: 1-2 kg/ha; downy, concentration: 4-8 g/L, max_rate: 5 kg/ha; powdery, rate: 3-4 kg/ha'

describe('limits of dose', () => {
  test('the uses for the targets of a spray, or all uses', () => {
    const indices = (targets?: string[]) => usesFor(product(THREE), targets).map(({ index }) => index)
    expect([indices(), indices(['powdery']), indices(['downy', 'mites']), indices([])]).toEqual([
      [0, 1, 2],
      [0, 2],
      [1],
      [],
    ])
  })

  test('every limit with its form, its range and its place', () => {
    const limits = doseLimits(usesFor(product(THREE), undefined))
    expect(limits).toEqual([
      { form: 'rate', against: 'powdery', low: 1, high: 2, unit: 'kg/ha', path: ['uses', 0, 'rate'] },
      {
        form: 'concentration',
        against: 'downy',
        low: 4,
        high: 8,
        unit: 'g/L',
        path: ['uses', 1, 'concentration'],
      },
      { form: 'max_rate', against: 'downy', low: 0, high: 5, unit: 'kg/ha', path: ['uses', 1, 'max_rate'] },
      { form: 'rate', against: 'powdery', low: 3, high: 4, unit: 'kg/ha', path: ['uses', 2, 'rate'] },
    ])
  })

  test('limits are separate for each product and target', () => {
    const one = product(THREE)
    expect(limitsFor(one, ['downy'])).toHaveLength(2)
    expect(limitsFor(one, ['powdery'])).toHaveLength(2)
    expect(limitsFor(one, undefined)).toHaveLength(4)
    expect(limitsFor(product('downy, rate: 1 kg/ha'), undefined)).toHaveLength(1)
    expect(limitsFor(one, ['downy'])).toBe(limitsFor(one, ['downy']))
  })

  test('a dose converted to the form of a limit', () => {
    const dose = {
      perHa: { value: 3, unit: 'kg/ha' },
      perLeafWall: { value: 2.5, unit: 'kg/ha leaf wall' },
      concentration: { value: 10, unit: 'g/L' },
    }
    const of = (form: 'rate' | 'concentration' | 'max_rate', unit: string, given: object = {}) =>
      inFormOf({ form, unit, against: 'x', low: 0, high: 1, path: [] }, { ...dose, ...given })
    expect(of('rate', 'kg/ha')).toBe(3)
    expect(of('max_rate', 'kg/ha')).toBe(3)
    expect(of('rate', 'kg/ha leaf wall')).toBe(2.5)
    expect(of('concentration', 'g/L')).toBe(10)
    expect(of('concentration', '%')).toBe(1)
    // Another measure, or an unknown figure, is not compared.
    expect(of('rate', 'L/ha')).toBeNull()
    expect(of('concentration', 'mL/L')).toBeNull()
    expect(of('rate', 'kg/ha', { perHa: null })).toBeNull()
    expect(of('concentration', '%', { concentration: null })).toBeNull()
  })
})

describe('a dose over the label', () => {
  const over = (rule: string, uses: string, part: string, more = 'water: 300 L/ha', files: Files = {}) =>
    findingsOf(rule, {
      'products/extra.yaml': text(uses),
      'seasons/2026/sprays.yaml': sprayed('2026-06-10', [`product: extra, ${part}`], more),
      ...files,
    }).map(({ message }) => message)

  test('with several uses, the one that allows most decides', () => {
    expect(over('over-rate', THREE, 'rate: 4 kg/ha, for: powdery')).toEqual([])
    expect(over('over-rate', THREE, 'rate: 4.2 kg/ha, for: powdery')).toEqual([
      "4.2 kg/ha of Extra is 1.1 times the label's maximum, 4 kg/ha against powdery (products/extra.yaml:8)",
    ])
    const first = 'powdery, rate: 3-4 kg/ha; downy, rate: 1-2 kg/ha'
    expect(over('over-rate', first, 'rate: 4.1 kg/ha')).toEqual([
      "4.1 kg/ha of Extra is above the label's maximum, 4 kg/ha against powdery (products/extra.yaml:6)",
    ])
  })

  test('the same breach for two targets is reported once, for the first', () => {
    expect(over('over-rate', 'powdery, rate: 2 kg/ha; downy, rate: 2 kg/ha', 'rate: 3 kg/ha')).toEqual([
      "3 kg/ha of Extra is 1.5 times the label's maximum, 2 kg/ha against powdery (products/extra.yaml:6)",
    ])
  })

  test('limits in different measures each apply', () => {
    const both = 'powdery, rate: 2 kg/ha; downy, rate: 1 kg/ha leaf wall'
    expect(over('over-rate', both, 'rate: 3 kg/ha')).toHaveLength(2)
    expect(over('over-rate', both, 'rate: 1.5 kg/ha')).toHaveLength(1)
  })

  test('seasons that are not judged serve only for comparison', () => {
    const ledger = bookOf(sprayed('2026-06-10', ['product: sulphur, rate: 7 kg/ha']), {
      'seasons/2025/sprays.yaml': sprayed('2025-06-10', ['product: sulphur, rate: 8 kg/ha']),
    })
    const over = overRate.check({ ledger, asOf: '2026-10-20', seasons: new Set([2026]) })
    expect(over.map(({ file }) => file)).toEqual(['seasons/2026/sprays.yaml'])
  })

  test('a limit in another measure than the dose does not apply', () => {
    expect(over('over-rate', 'powdery, rate: 2 L/ha', 'rate: 3 kg/ha')).toEqual([])
    expect(over('over-concentration', 'powdery, concentration: 2 g/L', 'rate: 3 kg/ha', '')).toEqual([])
  })

  test('for a target that the label does not name, the most it allows for any is the limit', () => {
    expect(over('over-rate', 'powdery, rate: 2 kg/ha', 'rate: 3 kg/ha, for: downy')).toHaveLength(1)
    expect(over('over-rate', 'powdery, rate: 2 kg/ha', 'rate: 2 kg/ha, for: downy')).toEqual([])
  })
})

describe('days before harvest and interval', () => {
  const uses =
    'powdery, rate: 1 kg/ha, before_harvest: 28 d, interval: 7-14 d; downy, rate: 1 kg/ha, interval: 10-14 d; mites, rate: 1 kg/ha, before_harvest: 14 d'
  const days = (targets: string[] | undefined, more = 'before_harvest: 21 d\n') => {
    const one = product(uses, more)
    return [daysBeforeHarvest(one, targets), daysBeforeHarvestPath(one, targets).join('.')]
  }
  test('the value of the use comes before that of the product; with several uses the longest', () => {
    expect(days(['powdery'])).toEqual([28, 'uses.0.before_harvest'])
    expect(days(['downy'])).toEqual([21, 'before_harvest'])
    expect(days(['mites'])).toEqual([14, 'uses.2.before_harvest'])
    expect(days(['downy', 'mites'])).toEqual([21, 'before_harvest'])
    expect(days(undefined)).toEqual([28, 'uses.0.before_harvest'])
    expect(days(['black-rot'])).toEqual([21, 'before_harvest'])
  })
  test('null where the label gives none', () => {
    expect(days(['downy'], '')[0]).toBeNull()
    expect(days(['black-rot'], '')[0]).toBeNull()
    expect(days(['downy', 'mites'], '')[0]).toBe(14)
  })
  test('the shortest allowed interval is the longest minimum of the uses', () => {
    const interval = (targets: string[] | undefined) => shortestInterval(product(uses), targets)
    expect(interval(['powdery'])).toEqual({ days: 7, path: ['uses', 0, 'interval'] })
    expect(interval(undefined)).toEqual({ days: 10, path: ['uses', 1, 'interval'] })
    expect(interval(['mites'])).toBeNull()
  })
})

describe('treatment frequency', () => {
  const index = (
    uses: string,
    part: string,
    more = 'water: 300 L/ha',
    of: Parameters<typeof label>[0] = {},
  ) =>
    frequencyOf(
      applied([`product: extra, ${part}`], more, 'upper', { 'products/extra.yaml': text(uses, of) }),
    )
  const two = 'powdery, rate: 1-2 kg/ha; downy, rate: 1-4 kg/ha'

  test('dose over reference, times the share of the block', () => {
    expect(index(two, 'rate: 1 kg/ha, for: powdery')).toEqual({ index: 0.5, withoutReference: 0 })
    expect(index(two, 'rate: 1 kg/ha, for: powdery', 'rows: 1-10')).toEqual({
      index: 0.25,
      withoutReference: 0,
    })
  })
  test('with several targets, or none on the label, the lowest', () => {
    expect(index(two, 'rate: 1 kg/ha, for: downy').index).toBe(0.25)
    expect(index(two, 'rate: 1 kg/ha, for: [downy, powdery]').index).toBe(0.5)
    expect(index(two, 'rate: 1 kg/ha').index).toBe(0.5)
    expect(index(two, 'rate: 1 kg/ha, for: mites').index).toBe(0.5)
    expect(index('downy, rate: 1-4 kg/ha; powdery, rate: 1-2 kg/ha', 'rate: 1 kg/ha').index).toBe(0.5)
    expect(index('downy, rate: 1 kg/ha leaf wall; powdery, rate: 1-2 kg/ha', 'rate: 1 kg/ha').index).toBe(0.5)
  })
  test('the maximum per ground area comes before the rate', () => {
    expect(index('powdery, concentration: 4-8 g/L, max_rate: 2 kg/ha', 'rate: 1 kg/ha').index).toBe(0.5)
    expect(index('powdery, rate: 1-4 kg/ha, max_rate: 2 kg/ha', 'rate: 1 kg/ha').index).toBe(0.5)
  })
  test.each([
    ['a dose on leaf wall', 'powdery, rate: 1-2 kg/ha leaf wall', 'rate: 1 kg/ha'],
    ['a dose for a volume', 'powdery, concentration: 4-8 g/L', 'rate: 1 kg/ha'],
    ['a label that says nought', 'powdery, rate: 0 kg/ha', 'rate: 1 kg/ha'],
    ['another measure', 'powdery, rate: 1-2 L/ha', 'rate: 1 kg/ha'],
  ])('%s gives no reference, and counts 1', (_, uses, part) => {
    expect(index(uses, part)).toEqual({ index: 1, withoutReference: 1 })
  })
  test('an unknown dose or share counts as 1', () => {
    const unknown = applied(['product: sulphur, rate: 1 kg/ha'], 'rows: 1-2', 'wide')
    expect(frequencyOf(unknown)).toEqual({ index: 1, withoutReference: 1 })
    const leafless = applied(['product: sulphur, rate: 1 kg/ha leaf wall'], '', 'lower')
    expect(frequencyOf(leafless)).toEqual({ index: 1, withoutReference: 1 })
  })
  test('adjuvants do not count, and products add up', () => {
    expect(index(two, 'rate: 1 kg/ha', '', { kind: 'adjuvant' })).toEqual({ index: 0, withoutReference: 0 })
    // 3 of 6 kg/ha of sulphur, 1 of 2 of copper.
    const mixed = applied(['product: sulphur, rate: 3 kg/ha', 'product: copper, rate: 1 kg/ha'])
    expect(frequencyOf(mixed)).toEqual({ index: 1, withoutReference: 0 })
  })
})
