import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { GROUP_LIMITS } from '../../../src/agronomy/spraying/group-limits.ts'
import { findingsOf } from '../../ledger/in-memory.ts'
import { dayAfter, EXTRA, type Files, holdsFor, label, SPRAYS, spray, whole } from './both-sides.ts'

const product = (group: string, against: string, more = '') =>
  label({ actives: actives(group), more }).replace('against: powdery', `against: ${against}`)
const actives = (groups: string) =>
  groups
    .split('+')
    .map((group, index) => `{ name: active ${index}, group: "${group}" }`)
    .join(', ')
const PRODUCTS = (against: string): Files => ({
  'products/one.yaml': product('3', against),
  'products/two.yaml': product('11', against),
  'products/three.yaml': product('49', against),
  'products/five.yaml': product('5', against),
  'products/thirteen.yaml': product('13', against),
  'products/both.yaml': product('3+11', against),
  'products/old.yaml': product('M02', against),
})
const ID: Record<string, string> = { '3': 'one', '5': 'five', '13': 'thirteen', '11': 'two', '49': 'three' }

/** Sprays twelve days apart, of the products named. */
const season = (ids: readonly string[], against = 'powdery'): Files => ({
  ...PRODUCTS(against),
  [SPRAYS]: ids
    .map((id, index) =>
      spray({
        date: dayAfter('2026-04-20', index * 12),
        products: [`product: ${id}, rate: 1 kg/ha, for: ${against}`],
      }),
    )
    .join(''),
})
const times = (count: number, id: string) => new Array<string>(count).fill(id)

describe('a group in a row', () => {
  test('by the label, which stands above any advice', () => {
    holdsFor('action-group-run', 'error', whole(1, 8), (most) => {
      const book = (count: number) => ({
        ...season(times(count, 'extra')),
        [EXTRA]: product('3', 'powdery', `max_in_row: ${most}\n`),
      })
      return { inside: book(most), outside: book(most + 1) }
    })
  })

  test.each(GROUP_LIMITS.filter(({ maxInRow }) => maxInRow !== null).map((limit) => [limit.group, limit]))(
    'group %s by advice',
    (group, { maxInRow, disease }) => {
      const run = (count: number) =>
        findingsOf('action-group-run', season(times(count, ID[group]!), disease)).map(({ level }) => level)
      expect(run(maxInRow!)).toEqual([])
      expect(run(maxInRow! + 1)).toEqual(['warning'])
    },
  )

  test('any spray without the group breaks it, and one with two actives carries both on', () => {
    const runs = (ids: string[]) => findingsOf('action-group-run', season(ids)).length
    expect(runs(['one', 'one', 'one'])).toBe(1)
    expect(runs(['one', 'one', 'old', 'one', 'one'])).toBe(0)
    expect(runs(['one', 'both', 'one'])).toBe(1)
    expect(runs(['one', 'two', 'one', 'one'])).toBe(0)
    expect(runs(['both', 'both'])).toBe(0)
  })

  test('a spray against another disease, or on another block, neither carries it on nor breaks it', () => {
    const powdery = (date: string, block = 'upper') =>
      spray({ date, products: ['product: one, rate: 1 kg/ha, for: powdery'] }).replace('upper', block)
    const downy = spray({ date: '2026-05-20', products: ['product: copper, rate: 1 kg/ha, for: downy'] })
    const judged = (text: string) =>
      findingsOf('action-group-run', { ...PRODUCTS('powdery'), [SPRAYS]: text })
    expect(
      judged(powdery('2026-05-01') + powdery('2026-05-12') + downy + powdery('2026-05-24')),
    ).toHaveLength(1)
    expect(judged(powdery('2026-05-01') + powdery('2026-05-12') + powdery('2026-05-24', 'lower'))).toEqual([])
  })
})

describe('a group in a season', () => {
  test.each(GROUP_LIMITS.filter(({ maxPerSeason }) => maxPerSeason !== null).map((one) => [one.group, one]))(
    'group %s by advice, in any order of sprays enough',
    (group, { maxPerSeason, disease }) => {
      const drawn = fc.shuffledSubarray([...times(6, 'old'), ...times(maxPerSeason!, ID[group]!)], {
        minLength: 6 + maxPerSeason!,
      })
      holdsFor('action-group-count', 'warning', drawn, (ids) => ({
        inside: season(ids, disease),
        outside: season([...ids, ID[group]!], disease),
      }))
    },
  )

  test('a limit against one disease is none against another', () => {
    const powdery = GROUP_LIMITS.find(
      ({ disease, maxPerSeason }) => disease === 'powdery' && maxPerSeason === 3,
    )!
    const ids = times(4, ID[powdery.group]!)
    expect(findingsOf('action-group-count', season(ids, 'powdery'))).toHaveLength(1)
    expect(findingsOf('action-group-count', season(ids, 'downy'))).toEqual([])
  })

  test('group 49 only once where there are four sprays or fewer (FRAC 2024)', () => {
    const count = (ids: string[]) => findingsOf('action-group-count', season(ids, 'downy')).length
    expect(count(['old', 'three', 'old', 'old'])).toBe(0)
    expect(count(['three', 'old', 'three', 'old'])).toBe(1)
    expect(count(['three', 'old', 'three', 'old', 'old'])).toBe(0)
  })

  test('a product with two actives counts in both groups', () => {
    const found = (ids: string[]) =>
      findingsOf('action-group-count', season(ids)).map(({ message }) => message.split(/[ :]/)[1])
    expect(found(['both', 'old', 'both'])).toEqual([])
    expect(found(['both', 'old', 'both', 'old', 'two'])).toEqual(['11'])
    expect(found(['both', 'old', 'both', 'old', 'one', 'old', 'one'])).toEqual(['3'])
  })
})

describe('kept apart', () => {
  const kept = (from: string, gap: number): Files => ({
    [EXTRA]: label({ more: `keep_apart: [ { from: ${from}, gap: ${gap} d } ]\n` }),
    'products/other.yaml': label({
      kind: 'plant strengthener',
      actives: '{ name: fatty acid soap, content: 500 g/kg }',
    }).replace('name: Extra', 'name: Other'),
  })
  const at = (date: string, id: string) =>
    spray({ date, products: [`product: ${id}, rate: 1 kg/ha, for: powdery`] })
  const drawn = fc.record({
    gap: whole(1, 60),
    from: fc.constantFrom('other', 'soap', 'fatty acid soap', 'plant strengthener', 'Other'),
    turned: fc.boolean(),
  })

  test('by id, name, active or kind, in both directions', () => {
    holdsFor('kept-apart', 'error', drawn, ({ gap, from, turned }) => {
      const [first, second] = turned ? ['other', 'extra'] : ['extra', 'other']
      const book = (days: number) => ({
        ...kept(from, gap),
        [SPRAYS]: at('2026-05-10', first!) + at(dayAfter('2026-05-10', days), second!),
      })
      return { inside: book(gap), outside: book(gap - 1) }
    })
  })

  test('in one tank, and not on other rows or blocks', () => {
    const judged = (text: string) => findingsOf('kept-apart', { ...kept('soap', 7), [SPRAYS]: text })
    const one = (id: string) => `product: ${id}, rate: 1 kg/ha, for: powdery`
    expect(judged(spray({ products: [one('extra'), one('other')] }))).toHaveLength(1)
    const rows = (id: string, span: string) => spray({ products: [one(id)], more: `  rows: ${span}\n` })
    expect(judged(rows('extra', '1-8') + rows('other', '9-20'))).toEqual([])
    expect(judged(at('2026-06-10', 'extra') + at('2026-06-12', 'other').replace('upper', 'lower'))).toEqual(
      [],
    )
  })

  test('oil and sulphur fourteen days, where no label speaks', () => {
    const oil = label({ kind: 'oil', actives: '{ name: paraffin oil, content: 800 g/kg }' })
    holdsFor('kept-apart', 'warning', fc.boolean(), (turned) => {
      const [first, second] = turned ? ['extra', 'sulphur'] : ['sulphur', 'extra']
      const book = (days: number) => ({
        [EXTRA]: oil,
        [SPRAYS]: at('2026-05-10', first!) + at(dayAfter('2026-05-10', days), second!),
      })
      return { inside: book(14), outside: book(13) }
    })
  })

  test('across the turn of the season', () => {
    const files: Files = {
      ...kept('soap', 30),
      'seasons/2026/sprays.yaml': at('2026-10-20', 'extra'),
      'seasons/2027/sprays.yaml': at('2026-11-10', 'other'),
    }
    expect(findingsOf('kept-apart', files, '2026-12-01')).toHaveLength(1)
  })
})

describe('what the label names', () => {
  test('stages: the first and the last are inside', () => {
    const stages = [53, 55, 57, 61, 65, 69, 71, 73, 75, 77]
    const drawn = fc.record({ at: whole(1, stages.length - 2), low: fc.boolean() })
    holdsFor('not-authorised-for', 'error', drawn, ({ at, low }) => {
      const span = low ? `${stages[at]}-99` : `1-${stages[at]}`
      const book = (stage: number) => ({
        [EXTRA]: label({ use: `rate: 1-6 kg/ha, stages: ${span}` }),
        [SPRAYS]: spray({
          products: ['product: extra, rate: 3 kg/ha, for: powdery'],
          more: `  stage: ${stage}\n`,
        }),
      })
      return { inside: book(stages[at]!), outside: book(stages[low ? at - 1 : at + 1]!) }
    })
  })
  test.each([
    ['powdery', 0],
    ['downy', 1],
    ['[powdery, downy]', 1],
    ['[botrytis, downy]', 2],
  ])('against %s', (target, count) => {
    const files = {
      [EXTRA]: label(),
      [SPRAYS]: spray({ products: [`product: extra, rate: 3 kg/ha, for: ${target}`] }),
    }
    expect(findingsOf('not-authorised-for', files)).toHaveLength(count)
  })
})
