import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { unitsForPrecision, unitsToDetect } from '../../../src/agronomy/disease/detection.ts'
import { incidence } from '../../../src/agronomy/disease/incidence.ts'
import { incidenceDifference } from '../../../src/agronomy/disease/incidence-difference.ts'
import { severity } from '../../../src/agronomy/disease/severity.ts'

const walk = fc
  .integer({ min: 1, max: 500 })
  .chain((looked) => fc.record({ looked: fc.constant(looked), affected: fc.nat(looked) }))

describe('incidence', () => {
  test('nothing looked at is no interval', () => expect(incidence(0, 0)).toBe(null))
  test.each([
    [5, 4],
    [-1, 4],
    [1, Number.NaN],
  ])('refuses %d of %d', (affected, looked) => {
    expect(() => incidence(affected, looked)).toThrow(RangeError)
  })
  test('stays in 0 to 1 and holds the share', () => {
    fc.assert(
      fc.property(walk, ({ affected, looked }) => {
        const share = incidence(affected, looked)!
        expect(share.low).toBeGreaterThanOrEqual(0)
        expect(share.high).toBeLessThanOrEqual(1)
        expect(share.low <= share.incidence && share.incidence <= share.high).toBe(true)
      }),
    )
  })
})

describe('incidenceDifference', () => {
  const then = { affected: 4, looked: 100 }
  test('a small rise is within chance, a large one beyond', () => {
    expect(incidenceDifference(then, { affected: 7, looked: 100 })!.beyondChance).toBe(false)
    expect(incidenceDifference(then, { affected: 16, looked: 100 })).toMatchObject({ beyondChance: true })
    expect(incidenceDifference({ affected: 16, looked: 100 }, then)!.high).toBeLessThan(0)
  })
  test('null where a walk looked at nothing', () => {
    expect(incidenceDifference(then, { affected: 0, looked: 0 })).toBe(null)
  })
  test('turned round it only changes its sign', () => {
    fc.assert(
      fc.property(walk, walk, (one, other) => {
        const there = incidenceDifference(one, other)!
        const back = incidenceDifference(other, one)!
        expect(back.low).toBeCloseTo(-there.high, 12)
        expect(there.low).toBeLessThanOrEqual(there.change + 1e-12)
        expect(there.low).toBeGreaterThanOrEqual(-1 - 1e-9)
        expect(back.beyondChance).toBe(there.beyondChance)
      }),
    )
  })
})

describe('severity', () => {
  test('over all units and over affected ones are two figures', () => {
    expect(
      severity([
        { midpoint: 0, count: 9 },
        { midpoint: 0.5, count: 1 },
      ]),
    ).toEqual({
      looked: 10,
      affected: 1,
      incidence: 0.1,
      severity: 0.05,
      severityAffected: 0.5,
    })
  })
  test('no affected unit has no severity of affected units; no unit has nothing', () => {
    expect(severity([{ midpoint: 0, count: 9 }])).toMatchObject({ severity: 0, severityAffected: null })
    expect(severity([])).toBe(null)
  })
  test('refuses percentages as shares and negative counts', () => {
    expect(() => severity([{ midpoint: 2.5, count: 1 }])).toThrow('midpoints')
    expect(() => severity([{ midpoint: 0.5, count: -1 }])).toThrow('counts')
  })
  test('never exceeds incidence', () => {
    const classes = fc.array(
      fc.record({ midpoint: fc.constantFrom(0, 0.015, 0.15, 0.625, 1), count: fc.nat(50) }),
      { minLength: 1 },
    )
    fc.assert(
      fc.property(classes, (counts) => {
        const result = severity(counts)
        if (result) expect(result.severity).toBeLessThanOrEqual(result.incidence + 1e-12)
      }),
    )
  })
})

describe('how many to look at', () => {
  test('to detect: enough, and one fewer is not', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 0.9, noNaN: true }), (share) => {
        const units = unitsToDetect(share)
        expect(1 - (1 - share) ** units).toBeGreaterThanOrEqual(0.95 - 1e-9)
        if (units > 1) expect(1 - (1 - share) ** (units - 1)).toBeLessThan(0.95)
      }),
    )
    expect(() => unitsToDetect(0)).toThrow(RangeError)
  })

  test('for a wanted precision: enough, one fewer is not, and those seen are taken off', () => {
    const half = (share: number, units: number) => {
      const { low, high } = incidence(share * units, units)!
      return (high - low) / 2
    }
    for (const share of [0, 0.04, 0.5]) {
      const units = unitsForPrecision({ share }, { halfWidth: 0.05 })
      expect(half(share, units)).toBeLessThanOrEqual(0.05)
      expect(half(share, units - 1)).toBeGreaterThan(0.05)
      expect(unitsForPrecision({ share, looked: 20 }, { halfWidth: 0.05 })).toBe(units - 20)
    }
    expect(unitsForPrecision({ share: 0.5, looked: 5000 }, { halfWidth: 0.05 })).toBe(0)
    expect(() => unitsForPrecision({ share: 0.5 }, { halfWidth: 0 })).toThrow(RangeError)
    expect(() => unitsForPrecision({ share: 0.5 }, { halfWidth: 1e-9 })).toThrow('too fine')
  })
})
