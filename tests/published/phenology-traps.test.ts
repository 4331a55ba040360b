import { describe, expect, test } from 'vitest'
import { degreeDays, sumDegreeDays } from '../../src/agronomy/heat/degree-days.ts'
import { huglinIndex } from '../../src/agronomy/heat/huglin.ts'
import { vegaDays } from './vega-weather.ts'

/** Variants that must not be mixed. */

/** The sweet-corn variant: minimum raised to the base and maximum lowered to the cap before the mean is taken. */
const clipped = (
  min: number,
  max: number,
  { base, upper = Number.POSITIVE_INFINITY }: { base: number; upper?: number },
) => Math.max(0, (Math.max(min, base) + Math.min(Math.max(max, base), upper)) / 2 - base)

describe('variants of the day', () => {
  const april = vegaDays('Seattle', '2014-04-01', '2014-04-30')
  const plain = () =>
    sumDegreeDays(april.map((day) => degreeDays({ ...day, base: 10, method: 'average' }))).sum!

  test('the clipped mean gives 10 for 8 to 34 °C between 10 and 30, ours 11', () => {
    expect(clipped(8, 34, { base: 10, upper: 30 })).toBe(10)
    expect(degreeDays({ min: 8, max: 34, base: 10, method: 'average' })).toBe(11)
  })
  test('Seattle in April 2014 is 39.75; clipped it would be 81.90, and with negatives kept 32.85', () => {
    expect(plain()).toBeCloseTo(39.75, 6)
    expect(april.reduce((sum, { min, max }) => sum + clipped(min, max, { base: 10 }), 0)).toBeCloseTo(81.9, 6)
    expect(april.reduce((sum, { min, max }) => sum + (min + max) / 2 - 10, 0)).toBeCloseTo(32.85, 6)
  })
  test('the coefficient of Huglin goes by steps: at 47° it is 1.05, where the smoothed one is 1.042', () => {
    expect(huglinIndex({ days: april, latitude: 47 }).coefficient).toBe(1.05)
    expect(1 + (0.06 * (47 - 40)) / 10).toBeCloseTo(1.042, 9)
  })
  test('a horizontal cap is the difference of two lower thresholds', () => {
    for (const [min, max] of [
      [5, 38],
      [14, 36],
      [31, 40],
      [8, 34],
    ] as const) {
      const sine = (base: number, upper?: number) =>
        degreeDays({ min, max, base, ...(upper === undefined ? {} : { upper }), method: 'single-sine' })!
      expect(sine(10, 30)).toBeCloseTo(sine(10) - sine(30), 9)
    }
  })
})
