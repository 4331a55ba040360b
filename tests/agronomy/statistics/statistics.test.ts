import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { meanInterval } from '../../../src/agronomy/statistics/mean.ts'
import { normalCdf, normalQuantile } from '../../../src/agronomy/statistics/normal.ts'
import { fitLine, meanResponse } from '../../../src/agronomy/statistics/regression.ts'
import { readingsNeeded } from '../../../src/agronomy/statistics/sample-size.ts'
import { studentCdf, studentQuantile } from '../../../src/agronomy/statistics/student.ts'

const share = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true })
const finite = fc.double({ min: -1e3, max: 1e3, noNaN: true })

describe('normal and Student', () => {
  test('well-known values of the normal curve', () => {
    expect(normalCdf(0)).toBe(0.5)
    expect(normalCdf(1.959963984540054)).toBeCloseTo(0.975, 14)
    expect(normalCdf(-5) + normalCdf(5)).toBeCloseTo(1, 15)
    expect(normalCdf(-4.9999999) / normalCdf(-5.0000001)).toBeCloseTo(1, 5)
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 12)
    expect(normalQuantile(0.5)).toBe(0)
  })
  test('quantile and distribution undo each other', () => {
    fc.assert(
      fc.property(share, fc.double({ min: 0.3, max: 1e5, noNaN: true }), (p, df) => {
        expect(studentCdf(studentQuantile(p, df), df)).toBeCloseTo(p, 11)
        expect(normalCdf(normalQuantile(p))).toBeCloseTo(p, 12)
      }),
    )
  })
  test('mirrored about zero, rising, heavier than the normal curve', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 50, noNaN: true }),
        fc.double({ min: 0.5, max: 500, noNaN: true }),
        (t, df) => {
          expect(studentCdf(t, df) + studentCdf(-t, df)).toBeCloseTo(1, 12)
          expect(studentCdf(t * 1.1, df)).toBeGreaterThanOrEqual(studentCdf(t, df))
          expect(studentCdf(-t, df)).toBeGreaterThanOrEqual(normalCdf(-t) - 1e-12)
        },
      ),
    )
  })
  test('many degrees of freedom run into the normal curve without a step', () => {
    expect(studentQuantile(0.975, 1e12)).toBeCloseTo(1.959963984540054, 10)
    expect(studentQuantile(0.975, 999_999) - studentQuantile(0.975, 1_000_001)).toBeCloseTo(0, 9)
    expect(studentCdf(Number.POSITIVE_INFINITY, 3)).toBe(1)
    expect(studentCdf(-1e200, 1)).toBeCloseTo(0, 12)
  })
  test('far out it is the tail of the Cauchy curve with one degree of freedom, and ends at nothing', () => {
    // The tail of the Cauchy curve beyond t is 1 / (pi t); with two degrees of freedom it is 1 / (2 t²).
    for (const t of [1e9, 1e100, 1e160]) {
      expect(studentCdf(-t, 1) * Math.PI * t).toBeCloseTo(1, 4)
      expect(studentCdf(t, 1)).toBe(t > 1e16 ? 1 : 1 - studentCdf(-t, 1))
    }
    expect(studentCdf(-1e150, 2) * 2 * 1e300).toBeCloseTo(1, 4)
    expect([studentCdf(Number.NEGATIVE_INFINITY, 3), studentCdf(Number.POSITIVE_INFINITY, 3)]).toEqual([0, 1])
    expect(studentQuantile(1 - 1e-12, 1) / (1e12 / Math.PI)).toBeCloseTo(1, 3)
    expect(studentQuantile(0.5, 7)).toBe(0)
  })
  test('refuses what has no answer, by name', () => {
    expect(() => studentCdf(1, 0)).toThrow('more than 0 degrees of freedom')
    expect(() => studentCdf(Number.NaN, 3)).toThrow('requires a number')
    expect(() => studentQuantile(0, 3)).toThrow('a share between 0 and 1')
    expect(() => studentQuantile(0.9, 0)).toThrow('more than 0 degrees of freedom')
    expect(() => normalCdf(Number.NaN)).toThrow('requires a number')
    for (const share of [0, 1, Number.NaN])
      expect(() => normalQuantile(share)).toThrow('a share between 0 and 1')
  })
  test('refuses what has no answer', () => {
    expect(() => studentQuantile(0, 3)).toThrow(RangeError)
    expect(() => studentQuantile(1, 3)).toThrow(RangeError)
    expect(() => studentQuantile(0.5, 0)).toThrow(RangeError)
    expect(() => studentCdf(Number.NaN, 3)).toThrow(RangeError)
    expect(() => studentCdf(1, -1)).toThrow(RangeError)
    expect(() => normalQuantile(1)).toThrow(RangeError)
    expect(() => normalCdf(Number.NaN)).toThrow(RangeError)
  })
})

describe('means', () => {
  test('no interval from two readings, no spread from one, nothing from none', () => {
    expect(meanInterval([19.6])).toEqual({ n: 1, mean: 19.6, sd: null, low: null, high: null })
    expect(meanInterval([19, 20])).toMatchObject({ n: 2, mean: 19.5, low: null, high: null })
    expect(() => meanInterval([])).toThrow(RangeError)
    expect(() => meanInterval([1, Number.NaN, 3])).toThrow(RangeError)
  })
  test('is Student by hand: eight readings, and three', () => {
    // 2 4 4 4 5 5 7 9: mean 5, squares about it 32; t(0.975, 7) = 2.364624 (any table of Student's t).
    const { mean, sd, low, high } = meanInterval([2, 4, 4, 4, 5, 5, 7, 9])
    expect([mean, sd]).toEqual([5, Math.sqrt(32 / 7)])
    expect(high! - mean).toBeCloseTo((2.364624 * Math.sqrt(32 / 7)) / Math.sqrt(8), 5)
    expect(mean - low!).toBeCloseTo((2.364624 * Math.sqrt(32 / 7)) / Math.sqrt(8), 5)
    // 18 20 22: s = 2; t(0.975, 2) = 4.302653.
    expect(meanInterval([18, 20, 22]).high).toBeCloseTo(20 + (4.302653 * 2) / Math.sqrt(3), 5)
  })
  test('two readings have a spread, though no interval', () => {
    expect(meanInterval([19, 20]).sd).toBeCloseTo(Math.SQRT1_2, 12)
    expect(meanInterval([19, 20]).high).toBeNull()
  })
  test('the interval holds the mean; the same readings again never widen it', () => {
    fc.assert(
      fc.property(fc.array(finite, { minLength: 3, maxLength: 40 }), (readings) => {
        const once = meanInterval(readings)
        const twice = meanInterval([...readings, ...readings])
        expect(once.low!).toBeLessThanOrEqual(once.mean)
        expect(once.high!).toBeGreaterThanOrEqual(once.mean)
        expect(twice.high! - twice.low!).toBeLessThanOrEqual(once.high! - once.low! + 1e-9)
      }),
    )
  })
})

describe('sample size', () => {
  const positive = fc.double({ min: 0.01, max: 5, noNaN: true })
  test('enough, and one fewer is not', () => {
    fc.assert(
      fc.property(positive, fc.double({ min: 0.05, max: 5, noNaN: true }), (sd, margin) => {
        const n = readingsNeeded({ sd, margin })
        const half = (count: number): number => (studentQuantile(0.975, count - 1) * sd) / Math.sqrt(count)
        expect(half(n)).toBeLessThanOrEqual(margin * (1 + 1e-9))
        if (n > 3) expect(half(n - 1)).toBeGreaterThan(margin * (1 - 1e-9))
      }),
    )
  })
  test('a smaller margin never needs fewer; never below three', () => {
    fc.assert(
      fc.property(positive, positive, (sd, margin) => {
        expect(readingsNeeded({ sd, margin: margin / 2 })).toBeGreaterThanOrEqual(
          readingsNeeded({ sd, margin }),
        )
      }),
    )
    expect(readingsNeeded({ sd: 0, margin: 1 })).toBe(3)
  })
  test('refuses what has no answer', () => {
    expect(() => readingsNeeded({ sd: -1, margin: 1 })).toThrow(RangeError)
    expect(() => readingsNeeded({ sd: 1, margin: 0 })).toThrow(RangeError)
  })
})

describe('lines', () => {
  test('refuses fewer than three points, equal x, and what is not finite', () => {
    expect(() =>
      fitLine([
        { x: 0, y: 1 },
        { x: 1, y: 2 },
      ]),
    ).toThrow(/three points/)
    expect(() => fitLine([1, 2, 3].map((y) => ({ x: 4, y })))).toThrow(/two different x/)
    expect(() => fitLine([1, Number.NaN, 3].map((y, x) => ({ x, y })))).toThrow(/finite/)
  })
  test('the mean response lies on the line', () => {
    const fit = fitLine([5, 6.2, 6.9, 8.1, 9.2].map((y, x) => ({ x, y })))
    expect(meanResponse(fit, 2).value).toBeCloseTo(7.08, 9)
  })
})
