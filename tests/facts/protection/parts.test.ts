import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { coverOn } from '../../../src/facts/protection/parts.ts'
import type { SprayCover } from '../../../src/facts/protection/sprays.ts'
import { addDays } from '../../../src/records/date.ts'

const DAY = '2026-06-10'
const spray = (over: Partial<SprayCover> & { days?: number }): SprayCover => {
  const { days = 7, ...rest } = over
  const date = rest.date ?? DAY
  const until = rest.until === undefined ? addDays(date, days) : rest.until
  return {
    product: 'sulphur',
    rows: null,
    share: 1,
    lasting: true,
    reason: 'interval',
    certain: true,
    sureUntil: until,
    atMost: until,
    notAdvised: null,
    sprayed: 0,
    ...rest,
    date,
    until,
  }
}
const rowsOf = (from: number, to: number, of = 16, over: Parameters<typeof spray>[0] = {}) =>
  spray({ rows: { from, to }, share: (to - from + 1) / of, ...over })

describe('parts of a block', () => {
  test('rows 1-8 and 9-16 add up, and the part that ends first decides', () => {
    const parts = [
      rowsOf(1, 8, 16, { product: 'first' }),
      rowsOf(9, 16, 16, { product: 'second', date: addDays(DAY, 1) }),
    ]
    expect(coverOn(DAY, parts, { rows: 16 })).toMatchObject({ covered: false, share: 0.5, daysLeft: 0 })
    const both = coverOn(addDays(DAY, 1), parts, { rows: 16 })
    expect(both).toMatchObject({ covered: true, share: 1, daysLeft: 6 })
    expect(both.decider?.product).toBe('first')
    expect(coverOn(addDays(DAY, 8), parts, { rows: 16 })).toMatchObject({ covered: false, share: 0.5 })
  })
  test('a row left out leaves the block unprotected', () => {
    const parts = [rowsOf(1, 8), rowsOf(10, 16)]
    expect(coverOn(DAY, parts, { rows: 16 })).toMatchObject({ covered: false, share: 15 / 16 })
  })
  test('rows that may overlap count once, and rows past the block not at all', () => {
    expect(coverOn(DAY, [rowsOf(1, 8), rowsOf(5, 12)], { rows: 16 })).toMatchObject({ share: 0.75 })
    expect(coverOn(DAY, [rowsOf(1, 8), rowsOf(17, 30, 16, { share: 0 })], { rows: 16 })).toMatchObject({
      share: 0.5,
    })
  })
  test('a later spray of some rows extends protection there, and takes none away elsewhere', () => {
    const parts = [spray({ product: 'whole', days: 3 }), rowsOf(1, 8, 16, { days: 9 })]
    const state = coverOn(DAY, parts, { rows: 16 })
    expect(state).toMatchObject({ covered: true, daysLeft: 3 })
    expect(state.decider?.product).toBe('whole')
  })
  test('two sprays of half by share may be of the same half: unknown, and it says so', () => {
    const state = coverOn(DAY, [spray({ share: 0.5 }), spray({ share: 0.5 })], { rows: 16 })
    expect(state).toMatchObject({ covered: null, share: null, decider: null })
    expect(state.why).toContain('may overlap')
    expect(coverOn(DAY, [spray({ share: 0.5 }), spray({ share: 0.4 })], { rows: 16 })).toMatchObject({
      covered: false,
      share: null,
    })
  })
  test('rows of a block without rows are unknown; missing rain of the part that is needed too', () => {
    const unknown = coverOn(DAY, [rowsOf(1, 8, 16, { share: null })], { rows: null })
    expect(unknown).toMatchObject({ covered: null })
    expect(unknown.why).toContain('number of rows is not recorded')
    const open = rowsOf(9, 16, 16, { until: null, sureUntil: null, atMost: addDays(DAY, 5), reason: null })
    expect(coverOn(DAY, [rowsOf(1, 8), open], { rows: 16 })).toMatchObject({
      covered: null,
      why: 'rain is missing',
    })
    expect(coverOn(DAY, [rowsOf(1, 7), open], { rows: 16 }).covered).toBe(false)
  })
  test('covered means that every row has a spray that lasts, row by row', () => {
    const part = fc.record({
      from: fc.integer({ min: 1, max: 12 }),
      length: fc.integer({ min: 1, max: 12 }),
      ago: fc.integer({ min: 0, max: 9 }),
    })
    fc.assert(
      fc.property(fc.array(part, { maxLength: 6 }), (parts) => {
        const sprays = parts.map(({ from, length, ago }) => {
          const to = Math.min(12, from + length - 1)
          return rowsOf(from, to, 12, { date: addDays(DAY, -ago) })
        })
        const lasts = Array.from({ length: 12 }, (_, at) => {
          const own = sprays.filter(({ rows }) => rows!.from <= at + 1 && rows!.to >= at + 1)
          return (
            own
              .map(({ until }) => until!)
              .sort()
              .at(-1) ?? ''
          )
        })
        const first = lasts.sort()[0]!
        const state = coverOn(DAY, sprays, { rows: 12 })
        expect(state.covered).toBe(first >= DAY)
        if (state.covered) expect(addDays(DAY, state.daysLeft!)).toBe(first)
        else expect(state.share).toBeCloseTo(lasts.filter((last) => last >= DAY).length / 12, 9)
      }),
    )
  })
})
