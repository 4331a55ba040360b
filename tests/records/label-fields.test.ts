import { describe, expect, test } from 'vitest'
import { product } from '../../src/records/kinds/product.ts'
import { spray } from '../../src/records/kinds/spray.ts'
import { readRange } from '../../src/records/quantity.ts'

const LABEL = { name: 'Soda', form: 'SP', kind: 'fungicide', actives: [{ name: 'potassium bicarbonate' }] }
const read = (use: object, more: object = {}) =>
  product().safeParse({ ...LABEL, uses: [{ against: 'powdery', ...use }], ...more })
const useOf = (use: object, more: object = {}) => read(use, more).data?.uses[0]
const faultOf = (use: object, more: object = {}) => read(use, more).error?.issues[0]

describe('doses as labels print them', () => {
  test.each([
    ['5-20 g/L', { low: 5, high: 20, unit: 'g/L' }],
    ['50 g in 10 L', { low: 5, high: 5, unit: 'g/L' }],
    ['50-100 g in 10 L', { low: 5, high: 10, unit: 'g/L' }],
    ['50 mL per 100 L', { low: 0.5, high: 0.5, unit: 'mL/L' }],
  ])('%s', (written, range) => expect(useOf({ concentration: written })?.concentration).toEqual(range))

  test.each([
    '2.5-5 kg/ha, at most 6 a season',
    '2.5-5 kg/ha; max. 6 applications per season',
    '2.5-5 kg per ha, up to 6 times a year',
  ])('%s: the dose, and how often', (written) =>
    expect(useOf({ rate: written })).toMatchObject({
      rate: { low: 2.5, high: 5, unit: 'kg/ha' },
      max_per_season: 6,
    }),
  )

  test('the number beside a dose and `max_per_season` must say the same', () => {
    const rate = '2.5-5 kg/ha, at most 6 a season'
    expect(useOf({ rate, max_per_season: 6 })).toMatchObject({ max_per_season: 6 })
    expect(faultOf({ rate, max_per_season: 5 })).toMatchObject({ path: ['uses', 0, 'max_per_season'] })
    expect(faultOf({ rate: '5 kg/ha, at most 0 a season' })?.message).toContain('allows no spray')
    expect(faultOf({ rate: '5 kg, at most 6 a season' })).toMatchObject({ params: { name: 'wrong-unit' } })
  })

  test('a dose in a volume is no dose for ground', () => {
    expect(readRange('50 g in 10 L', ['kg/ha']).fault?.name).toBe('wrong-unit')
    expect(readRange('12 in', ['m']).range?.low).toBeCloseTo(0.3048, 6)
  })
})

describe('re-entry by the label', () => {
  const reEntry = (written: unknown) => read({ rate: '2 kg/ha' }, { re_entry: written })
  test.each([
    ['24 h', 24],
    ['2 d', 48],
    ['until dry', 'until dry'],
    ['until the spray has dried', 'until dry'],
    ['Until sprays have dried', 'until dry'],
  ])('%s', (written, hours) => expect(reEntry(written).data?.re_entry).toBe(hours))
  test.each(['when dry', 'dry', '24', 'until noon'])('%s is refused, with a way out', (written) => {
    const issue = reEntry(written).error?.issues[0] as { params?: { help?: string } }
    expect(issue.params?.help).toMatch(/24 h|units here|write/)
  })
})

test('how a product acts is one word or several', () => {
  expect(read({ rate: '2 kg/ha' }, { acts: 'contact', cures: '2 d', with: 'oil-a' }).data).toMatchObject({
    acts: ['contact'],
    cures: 48,
    with: ['oil-a'],
  })
  expect(read({ rate: '2 kg/ha' }, { acts: ['curative', 'systemic'] }).data?.acts).toEqual([
    'curative',
    'systemic',
  ])
  expect(read({ rate: '2 kg/ha' }, { acts: 'magic' }).success).toBe(false)
})

describe('how much a spray treated', () => {
  const entry = (more: object) =>
    spray().safeParse({
      date: '2026-07-06',
      blocks: 'upper',
      water: '3 L',
      products: [{ product: 'soda', concentration: '8 g/L' }],
      ...more,
    })
  test.each([{ vines: 12 }, { rows: '1-2' }, { share: '5 %' }, {}])('%j', (extent) =>
    expect(entry({ method: 'spot', ...extent }).success).toBe(true),
  )
  test.each([
    { vines: 12, rows: '1-2' },
    { rows: '1-2', share: '5 %' },
    { vines: 3, blocks: ['a', 'b'] },
  ])('%j says it twice', (extent) =>
    expect(entry(extent).error?.issues[0]).toMatchObject({ params: { name: 'two-extents' } }),
  )
})
