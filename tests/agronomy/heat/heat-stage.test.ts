import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { heatStage, stageSumStart } from '../../../src/agronomy/heat/heat-stage.ts'
import { vegaDays } from '../../published/vega-weather.ts'

const mean = fc.integer({ min: -100, max: 600 }).map((n) => n / 20)

describe('heatStage', () => {
  test('a tie is reached on its day, on decimals that a float sum misses', () => {
    const means = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.1]
    expect(heatStage({ startDay: 100, means, requirement: 5.6 })).toBe(109)
    expect(heatStage({ startDay: 100, means, requirement: 4.5 })).toBe(108)
    expect(heatStage({ startDay: 100, means, requirement: 4.51 })).toBe(109)
  })

  test('a float sum is a day late for Pinot noir at Seattle in 2012', () => {
    const means = vegaDays('Seattle', '2012-03-01', '2012-12-31').map(({ min, max }) => (min + max) / 2)
    let sum = 0
    const plain = means.findIndex((each) => {
      sum += Math.max(0, each)
      return sum >= 1219
    })
    expect(heatStage({ startDay: 0, means, requirement: 1219 })).toBe(plain - 1)
  })

  test('frost takes nothing back', () => {
    expect(heatStage({ startDay: 0, means: [10, -8, 10], requirement: 20 })).toBe(2)
  })

  test('is null where the sum is not reached; a day that is unknown adds nothing', () => {
    expect(heatStage({ startDay: 0, means: [10, null, 12], requirement: 100 })).toBeNull()
    expect(heatStage({ startDay: 5, means: [10, null, 12, 3], requirement: 22 })).toBe(7)
    expect(heatStage({ startDay: 5, means: [], requirement: 22 })).toBeNull()
    // Days after it are not asked about, whether it is reached on the first day or later.
    expect(heatStage({ startDay: 5, means: [null, 30, null, 3], requirement: 22 })).toBe(6)
    expect(heatStage({ startDay: 5, means: [30, null, null], requirement: 22 })).toBe(5)
  })

  test('refuses a requirement that is none', () => {
    for (const requirement of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => heatStage({ startDay: 0, means: [1], requirement })).toThrow(RangeError)
    }
  })

  test('a higher requirement never comes earlier', () => {
    fc.assert(
      fc.property(
        fc.array(mean),
        fc.integer({ min: 1, max: 900 }),
        fc.integer({ min: 0, max: 90 }),
        (means, low, more) => {
          const [early, late] = [low, low + more].map((requirement) =>
            heatStage({ startDay: 0, means, requirement }),
          )
          if (late !== null) expect(early).toBeLessThanOrEqual(late!)
        },
      ),
    )
  })

  test('starts on calendar dates, leap year or not', () => {
    expect(stageSumStart.north).toEqual({ month: 3, day: 1 })
  })
})
