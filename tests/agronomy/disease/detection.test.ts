import { describe, expect, test } from 'vitest'
import { unitsForPrecision, unitsToDetect } from '../../../src/agronomy/disease/detection.ts'
import { incidence } from '../../../src/agronomy/disease/incidence.ts'

describe('units to find at least one', () => {
  test.each([0.001, 0.02, 0.5, 0.97])(
    'at a share of %d are the fewest that do in 19 of 20 cases',
    (share) => {
      const units = unitsToDetect(share)
      const found = (n: number) => 1 - (1 - share) ** n
      expect(found(units)).toBeGreaterThanOrEqual(0.95 - 1e-9)
      expect(units === 1 || found(units - 1) < 0.95).toBe(true)
    },
  )

  test.each([0, 1, -0.1, Number.NaN])('no share of %d', (share) =>
    expect(() => unitsToDetect(share)).toThrow(
      `unitsToDetect requires a share between 0 and 1, got ${share}`,
    ),
  )
})

describe('units for a precision', () => {
  const half = (share: number, units: number) => {
    const { low, high } = incidence(share * units, units)!
    return (high - low) / 2
  }

  test.each([
    [0, 0.05],
    [1, 0.05],
    [0.1, 0.03],
    [0.3, 0.49],
    [0.5, 0.1],
  ])('at a share of %d within %d are the fewest that do', (share, halfWidth) => {
    const units = unitsForPrecision({ share }, { halfWidth })
    expect(half(share, units)).toBeLessThanOrEqual(halfWidth + 1e-12)
    expect(units === 1 || half(share, units - 1) > halfWidth).toBe(true)
  })

  test('are less those seen already, and never below none', () => {
    const all = unitsForPrecision({ share: 0.1 }, { halfWidth: 0.05 })
    expect(unitsForPrecision({ share: 0.1, looked: 40 }, { halfWidth: 0.05 })).toBe(all - 40)
    expect(unitsForPrecision({ share: 0.1, looked: all + 9 }, { halfWidth: 0.05 })).toBe(0)
  })

  test.each([
    [-0.1, 0.05],
    [1.1, 0.05],
    [0.1, 0],
    [0.1, -0.05],
    [0.1, 0.5],
    [0.1, 0.6],
  ])('no share of %d within %d', (share, halfWidth) =>
    expect(() => unitsForPrecision({ share }, { halfWidth })).toThrow(
      `can't reach ${share} within ${halfWidth}`,
    ),
  )

  test('not what no count reaches', () =>
    expect(() => unitsForPrecision({ share: 0.5 }, { halfWidth: 1e-7 })).toThrow(
      'too fine to reach by counting',
    ))
})
