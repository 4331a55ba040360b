import { describe, expect, test } from 'vitest'
import { forecastRipening } from '../../../src/agronomy/ripening/ripening-forecast.ts'

/** A straight rise of 0.25 °Brix a day up to 20 at the last sample, day by day, so that hardly another line fits. */
const DAILY = Array.from({ length: 41 }, (_, at) => ({ x: at - 40, y: 20 + (at - 40) * 0.25 }))
const EXACT = { variance: 1e-6, df: 3 }
const WEEKLY = [12, 14, 16, 18].map((y, at) => ({ x: 7 * (at - 3), y }))
/** Width of the span in which the chance of 20 °Brix goes from a tenth to nine tenths. */
function width(options: Parameters<typeof forecastRipening>[1]): number {
  const { reachedBy } = forecastRipening(WEEKLY, options)
  let [early, late] = [0, 0]
  for (let x = -10; x < 60; x += 0.05) {
    if (reachedBy(x, 20) < 0.1) early = x
    if (reachedBy(x, 20) < 0.9) late = x
  }
  return late - early
}

describe('that ripening may break after the last sample', () => {
  const { reachedBy } = forecastRipening(DAILY, { readings: EXACT })
  test('takes three in a hundred of what is sure by steady pace, until half the pace has come as far', () => {
    // 20.5 is two days off, and four by half the pace.
    expect(reachedBy(1.5, 20.5)).toBeLessThan(0.05)
    expect(reachedBy(2.8, 20.5)).toBeCloseTo(0.97, 2)
    expect(reachedBy(3.5, 20.5)).toBeCloseTo(0.97, 2)
    expect(reachedBy(5, 20.5)).toBeCloseTo(1, 2)
  })
  test('is no matter of days before it', () => {
    // 19.8 was reached 0.8 days before.
    expect(reachedBy(-1.2, 19.8)).toBeLessThan(0.01)
    expect(reachedBy(-0.4, 19.8)).toBeGreaterThan(0.99)
    expect(reachedBy(0, 20.2)).toBeLessThan(0.01)
  })
})

describe('what readings within samples say of their noise', () => {
  test('tells the spread: the more they differ, the wider', () => {
    const widths = [0.001, 0.04, 0.25, 1].map((variance) => width({ readings: { variance, df: 3 } }))
    expect(widths).toEqual(widths.toSorted((a, b) => a - b))
    expect(widths[3]! / widths[0]!).toBeGreaterThan(3)
  })
  test('counts as three samples at the most', () => {
    const at = (df: number) => width({ readings: { variance: 0.5, df } })
    expect(at(300)).toBe(at(3))
    expect(at(3)).not.toBe(at(1))
  })
  test('leaves all as it was where it says what is held without them', () => {
    // A noise of 0.2 is held of a sample; readings that say the same only make it surer.
    const [without, same] = [
      forecastRipening(WEEKLY),
      forecastRipening(WEEKLY, { readings: { variance: 0.04, df: 3 } }),
    ]
    expect(same.rate).toBeCloseTo(without.rate, 2)
  })
})

test('an unsure shift of all samples widens, and moves nothing', () => {
  expect(width({ shiftError: 0.5 })).toBeGreaterThan(width({}) + 1)
  const [plain, shifted] = [forecastRipening(WEEKLY), forecastRipening(WEEKLY, { shiftError: 0.5 })]
  expect(shifted.rate).toBe(plain.rate)
  expect(shifted.rising).toBe(plain.rising)
})
