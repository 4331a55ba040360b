import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { combineWindows } from '../../../src/agronomy/ripening/combine-windows.ts'
import { daysAfterVeraison, veraisonDay } from '../../../src/agronomy/ripening/days-after-veraison.ts'

describe('daysAfterVeraison', () => {
  test('an exact veraison gives the range itself', () => {
    expect(daysAfterVeraison({ veraison: 1000, from: 30, to: 60 })).toEqual({
      earliest: 1030,
      likely: 1045,
      latest: 1060,
    })
  })

  test('an uncertain veraison widens it in quadrature', () => {
    const window = daysAfterVeraison({ veraison: 1000, within: 8, from: 30, to: 60 })
    expect(window).toEqual({ earliest: 1028, likely: 1045, latest: 1062 }) // hypot(15, 8) = 17
  })

  test('half coloured is the day itself, a tenth is days before it, nine tenths after it', () => {
    expect(veraisonDay({ day: 500, share: 0.5 })).toEqual({ day: 500, within: 3 })
    const tenth = veraisonDay({ day: 500, share: 0.1 })
    const most = veraisonDay({ day: 500, share: 0.9 })
    expect(tenth.day).toBeCloseTo(505.22, 2) // 14 x ln 9 / (2 ln 19)
    expect(most.day).toBeCloseTo(494.78, 2)
    expect(tenth.within).toBeCloseTo(3 + 5.22 / 2, 2)
    expect(veraisonDay({ day: 500, share: 0.05 }).day).toBeCloseTo(507, 9)
    expect(veraisonDay({ day: 500 }).within).toBeGreaterThan(tenth.within)
  })

  test.each([0, 1, -0.1, 10, Number.NaN])('refuses a share of %d', (share) => {
    expect(() => veraisonDay({ day: 500, share })).toThrow(RangeError)
  })

  test.each([
    [0, 60],
    [60, 30],
    [Number.NaN, 60],
    [30, Number.NaN],
  ])('refuses a range of %d to %d', (from, to) => {
    expect(() => daysAfterVeraison({ veraison: 1, from, to })).toThrow(RangeError)
  })
})

describe('combineWindows', () => {
  const even = (method: string, likely: number, half: number) => ({
    method,
    earliest: likely - half,
    likely,
    latest: likely + half,
  })
  const silent = { method: 'c', earliest: null, likely: null, latest: null }

  test('one alone passes through, also when it has no interval', () => {
    expect(combineWindows([even('a', 100, 7), silent])).toMatchObject({
      earliest: 93,
      likely: 100,
      latest: 107,
      weights: [
        { method: 'a', weight: 1 },
        { method: 'c', weight: 0 },
      ],
      chiSquare: null,
      disagree: false,
      reason: null,
    })
    const bare = combineWindows([{ method: 'a', earliest: null, likely: 100, latest: null }, silent])
    expect(bare).toMatchObject({ earliest: null, likely: 100, latest: null })
    expect(bare.reason).toMatch(/no interval/)
    expect(bare.weights[0]!.weight).toBe(1)
  })

  test('none says so', () => {
    expect(combineWindows([])).toMatchObject({ likely: null, reason: 'no method can tell' })
    expect(combineWindows([silent])).toMatchObject({ likely: null, reason: 'no method can tell' })
    const two = ['a', 'b'].map((method) => ({ method, earliest: null, likely: 100, latest: null }))
    expect(combineWindows(two)).toMatchObject({
      likely: null,
      reason: 'no method gives an interval to weigh it by',
    })
  })

  test('two that agree weigh by inverse variance and narrow', () => {
    const combined = combineWindows([even('a', 100, 6), even('b', 103, 12)])
    expect(combined.weights.map(({ weight }) => weight)).toEqual([
      expect.closeTo(0.8, 9),
      expect.closeTo(0.2, 9),
    ])
    expect(combined.likely).toBe(101) // 100.6
    expect(combined.earliest).toBe(95) // 100.6 - 12 x 6 / hypot(6, 12) = 95.23
    expect(combined.latest).toBe(106)
    expect(combined.birgeRatio).toBeLessThan(1)
    expect(combined.disagree).toBe(false)
  })

  test('two that disagree widen to hold both', () => {
    const combined = combineWindows([even('a', 100, 5), even('b', 130, 5)])
    expect(combined.likely).toBe(115)
    expect(combined.birgeRatio).toBeCloseTo(30 / (Math.SQRT2 * (5 / 1.6448536)), 6)
    expect(combined.disagree).toBe(true)
    expect(combined.earliest).toBeLessThan(100)
    expect(combined.latest).toBeGreaterThan(130)
  })

  test('the 5 % point of chi-square with one degree of freedom parts agreement from disagreement', () => {
    const half = 1.6448536 * 10 // standard error of ten days each
    expect(combineWindows([even('a', 100, half), even('b', 127.7, half)]).disagree).toBe(false) // 27.7²/200 = 3.836
    expect(combineWindows([even('a', 100, half), even('b', 127.8, half)]).disagree).toBe(true) // 3.858
  })

  test('a skewed window leaves a skewed result', () => {
    const skew = { method: 'a', earliest: 98, likely: 100, latest: 112 }
    const combined = combineWindows([skew, { ...skew, method: 'b' }])
    expect(combined.likely).toBe(100)
    expect(combined.latest! - 100).toBeGreaterThan(100 - combined.earliest!)
  })

  test('an interval of no width does not take all the weight', () => {
    const combined = combineWindows([even('a', 100, 0), even('b', 101, 0)])
    expect(combined.weights[0]!.weight).toBeCloseTo(0.5, 9)
    expect(combined.earliest).toBeLessThan(combined.latest!)
  })

  test('a method that lacks one end has no weight', () => {
    const full = combineWindows([even('a', 100, 5), even('b', 104, 5)])
    for (const lacks of ['earliest', 'latest'] as const)
      expect(
        combineWindows([even('a', 100, 5), even('b', 104, 5), { ...even('c', 130, 5), [lacks]: null }]),
      ).toMatchObject({
        earliest: full.earliest,
        likely: full.likely,
        latest: full.latest,
      })
  })

  test('the ratio of Birge of three methods has two degrees of freedom, and four methods are not too many', () => {
    const error = 5 / 1.6448536
    const combined = combineWindows([even('a', 100, 5), even('b', 110, 5), even('c', 120, 5)])
    expect(combined.chiSquare).toBeCloseTo(200 / error ** 2, 3)
    expect(combined.birgeRatio).toBeCloseTo(Math.sqrt(100 / error ** 2), 4)
    expect(combineWindows([1, 2, 3, 4].map((n) => even(`${n}`, 100, 5))).likely).toBe(100)
  })

  test('refuses what is out of order, not finite, or too many', () => {
    expect(() => combineWindows([{ method: 'a', earliest: 5, likely: 4, latest: 6 }])).toThrow(RangeError)
    expect(() => combineWindows([{ method: 'a', earliest: 3, likely: 7, latest: 6 }])).toThrow(RangeError)
    expect(() => combineWindows([{ method: 'a', earliest: 5, likely: Number.NaN, latest: 6 }])).toThrow(
      RangeError,
    )
    expect(() => combineWindows([1, 2, 3, 4, 5].map((n) => even(`${n}`, 100, 5)))).toThrow(RangeError)
  })

  test('weights add up to one; the likely day lies between the methods; later estimates never come earlier', () => {
    const one = fc.record({
      likely: fc.integer({ min: 19_000, max: 19_100 }),
      before: fc.integer({ min: 0, max: 30 }),
      after: fc.integer({ min: 0, max: 30 }),
    })
    fc.assert(
      fc.property(
        fc.array(one, { minLength: 2, maxLength: 3 }),
        fc.integer({ min: 0, max: 20 }),
        (windows, shift) => {
          const run = (days: number) =>
            combineWindows(
              windows.map(({ likely, before, after }, index) => ({
                method: `m${index}`,
                earliest: likely - before + days,
                likely: likely + days,
                latest: likely + after + days,
              })),
            )
          const combined = run(0)
          expect(combined.weights.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9)
          const likelies = windows.map(({ likely }) => likely)
          expect(combined.likely).toBeGreaterThanOrEqual(Math.min(...likelies))
          expect(combined.likely).toBeLessThanOrEqual(Math.max(...likelies))
          expect(combined.earliest).toBeLessThanOrEqual(combined.likely!)
          expect(combined.latest).toBeGreaterThanOrEqual(combined.likely!)
          const later = run(shift)
          for (const end of ['earliest', 'likely', 'latest'] as const) {
            expect(Math.abs(later[end]! - combined[end]! - shift)).toBeLessThanOrEqual(1) // rounding of a float
          }
        },
      ),
    )
  })
})
