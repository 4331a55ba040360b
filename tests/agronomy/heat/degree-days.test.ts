import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type DegreeDayMethod, degreeDays, sumDegreeDays } from '../../../src/agronomy/heat/degree-days.ts'
import { runningSum } from '../../../src/agronomy/weather/running-sum.ts'
import { vegaDays } from '../../published/vega-weather.ts'

const tenths = (min: number, max: number) => fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10)
const day = fc
  .tuple(tenths(-15, 45), tenths(-15, 45))
  .map(([a, b]) => ({ min: Math.min(a, b), max: Math.max(a, b) }))
const threshold = tenths(0, 35)
const methods: DegreeDayMethod[] = ['average', 'single-sine', 'single-triangle']

/** Area of the curve between base and upper by the midpoint rule: a path of its own. */
function byIntegration(
  options: { min: number; max: number; base: number; upper: number },
  sine: boolean,
): number {
  const steps = 20_000
  let area = 0
  for (let step = 0; step < steps; step++) {
    const phase = (step + 0.5) / steps
    const height = sine ? (1 + Math.sin(2 * Math.PI * phase)) / 2 : 1 - Math.abs(2 * phase - 1)
    const temperature = options.min + (options.max - options.min) * height
    area += Math.max(0, Math.min(temperature, options.upper) - options.base)
  }
  return area / steps
}

describe('degreeDays', () => {
  test('agrees with the area under the curve', () => {
    fc.assert(
      fc.property(day, threshold, threshold, (temperatures, a, b) => {
        const options = { ...temperatures, base: Math.min(a, b), upper: Math.max(a, b) }
        const sine = degreeDays({ ...options, method: 'single-sine' })
        const triangle = degreeDays({ ...options, method: 'single-triangle' })
        expect(Math.abs(sine - byIntegration(options, true))).toBeLessThan(1e-4)
        expect(Math.abs(triangle - byIntegration(options, false))).toBeLessThan(1e-4)
      }),
      { numRuns: 60 },
    )
  })

  test('sine and triangle lie between the average and the maximum above the base', () => {
    fc.assert(
      fc.property(day, threshold, (temperatures, base) => {
        const [average, sine, triangle] = methods.map((method) =>
          degreeDays({ ...temperatures, base, method }),
        )
        for (const curve of [sine!, triangle!]) {
          expect(curve).toBeGreaterThanOrEqual(average! - 1e-9)
          expect(curve).toBeLessThanOrEqual(Math.max(0, temperatures.max - base) + 1e-9)
        }
        if (temperatures.min >= base) expect(sine).toBeCloseTo(average!, 9)
      }),
    )
  })

  test('the cut-off is the sum above the base less the sum above upper, for every method', () => {
    fc.assert(
      fc.property(day, threshold, threshold, fc.constantFrom(...methods), (temperatures, a, b, method) => {
        const [base, upper] = [Math.min(a, b), Math.max(a, b)]
        const cut = degreeDays({ ...temperatures, base, upper, method })
        const whole = degreeDays({ ...temperatures, base, method })
        const above = degreeDays({ ...temperatures, base: upper, method })
        expect(cut).toBeCloseTo(whole - above, 9)
        expect(cut).toBeLessThanOrEqual(upper - base + 1e-9)
      }),
    )
  })

  test('in °F it is 1.8 times as much', () => {
    fc.assert(
      fc.property(day, threshold, fc.constantFrom(...methods), ({ min, max }, base, method) => {
        const f = (celsius: number) => celsius * 1.8 + 32
        const inFahrenheit = degreeDays({ min: f(min), max: f(max), base: f(base), method })
        expect(inFahrenheit).toBeCloseTo(1.8 * degreeDays({ min, max, base, method }), 6)
      }),
    )
  })

  test.each(methods)('%s: a day of one temperature divides by nothing', (method) => {
    expect(degreeDays({ min: 14, max: 14, base: 10, method })).toBe(4)
    expect(degreeDays({ min: 10, max: 10, base: 10, method })).toBe(0)
    expect(degreeDays({ min: 6, max: 6, base: 10, method })).toBe(0)
  })

  test.each([
    ['a warm base', { min: -3, max: 8, base: 10 }, 0],
    ['mean just below base', { min: 4, max: 15.9, base: 10 }, 0],
    ['mean just above base', { min: 4, max: 16.1, base: 10 }, 0.05],
    ['upper caps the mean, not the maximum', { min: 20, max: 44, base: 10, upper: 30 }, 20],
    ['upper above the mean changes nothing', { min: 10, max: 40, base: 10, upper: 30 }, 15],
  ])('average: %s', (_, options, want) => {
    expect(degreeDays({ ...options, method: 'average' })).toBeCloseTo(want, 9)
  })

  test.each([
    { min: 12, max: 9, base: 10 },
    { min: Number.NaN, max: 9, base: 10 },
    { min: 1, max: Number.POSITIVE_INFINITY, base: 10 },
    { min: 1, max: 9, base: Number.NaN },
    { min: 1, max: 9, base: 10, upper: 5 },
    { min: 1, max: 9, base: 10, upper: Number.NaN },
  ])('refuses %o', (options) => {
    expect(() => degreeDays({ ...options, method: 'average' })).toThrow(RangeError)
  })

  test('the average is neither clipped first nor left negative (Seattle, April 2014: 39.75)', () => {
    const april = vegaDays('Seattle', '2014-04-01', '2014-04-30')
    const sum = sumDegreeDays(april.map((each) => degreeDays({ ...each, base: 10, method: 'average' }))).sum!
    const clipped = april.reduce(
      (total, { min, max }) => total + (Math.max(min, 10) + Math.max(max, 10)) / 2 - 10,
      0,
    )
    const negative = april.reduce((total, { min, max }) => total + (min + max) / 2 - 10, 0)
    expect(clipped).toBeCloseTo(81.9, 6)
    expect(negative).toBeCloseTo(32.85, 6)
    expect(sum).toBe(39.75)
  })
})

describe('sums', () => {
  test('keep decimal ties', () => {
    expect(runningSum(Array(10).fill(0.1)).at(-1)).toBe(1)
    expect(
      Array(10)
        .fill(0.1)
        .reduce((a, b) => a + b, 0),
    ).not.toBe(1)
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 800 }), { maxLength: 400 }), (twentieths) => {
        const exact = twentieths.reduce((a, b) => a + b, 0) / 20
        expect(runningSum(twentieths.map((n) => n / 20)).at(-1) ?? 0).toBe(exact)
      }),
    )
  })

  test('carry along what a sum loses, whichever of the two is the larger', () => {
    const huge = 2 ** 53
    expect(runningSum([huge, 1, 1, 1, -huge]).at(-1)).toBe(3)
    expect(runningSum([1, huge, 1, -huge]).at(-1)).toBe(2)
    expect(runningSum([-1, -huge, -1, huge]).at(-1)).toBe(-2)
  })

  test('an unknown day is counted, never zero', () => {
    expect(sumDegreeDays([1.5, null, 2])).toEqual({ sum: 3.5, missing: 1 })
    expect(sumDegreeDays([null, null])).toEqual({ sum: null, missing: 2 })
    expect(sumDegreeDays([])).toEqual({ sum: null, missing: 0 })
  })

  test('refuse what is not finite', () => {
    expect(() => runningSum([1, Number.NaN])).toThrow(RangeError)
  })
})
