import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { blockArea, treatedArea, vinesPerHa, vinesPlanted } from '../../../src/agronomy/crop/area.ts'

const block = { rows: 24, rowLength: 85, rowSpacing: 2.2, vineSpacing: 1.2 }

test('a block of rows has its area, half a spacing outside each edge row counted', () => {
  expect(blockArea(block)).toBeCloseTo(0.4488, 12)
})

test('vines are whole, one more a row with a vine at both ends', () => {
  expect(vinesPlanted(block)).toBe(1700)
  expect(vinesPlanted({ rows: 1, rowLength: 10, vineSpacing: 3 })).toBe(3)
})

test('density times area is the vines of a block', () => {
  expect(vinesPerHa(block) * blockArea(block)).toBeCloseTo(1700, 9)
})

describe('treated area', () => {
  test('by rows and by share', () => {
    expect(treatedArea({ area: 0.45, rowsTreated: 8, rows: 24 })).toBeCloseTo(0.15, 12)
    expect(treatedArea({ area: 0.45, share: 0.5 })).toBe(0.225)
  })
  test('is the whole at all rows and at a share of 1, and nothing at none', () => {
    expect(treatedArea({ area: 0.45, rowsTreated: 24, rows: 24 })).toBe(0.45)
    expect(treatedArea({ area: 0.45, share: 1 })).toBe(0.45)
    expect(treatedArea({ area: 0.45, share: 0 })).toBe(0)
  })
  test('is never more than the block', () => {
    expect(() => treatedArea({ area: 0.45, rowsTreated: 25, rows: 24 })).toThrow('at most 24 treated rows')
    expect(() => treatedArea({ area: 0.45, share: 1.01 })).toThrow(RangeError)
    const share = fc.double({ min: 0, max: 1, noNaN: true })
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 500, noNaN: true }), share, (area, part) => {
        expect(treatedArea({ area, share: part })).toBeLessThanOrEqual(area)
      }),
    )
  })
})

test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s as a measure', (bad) => {
  for (const key of ['rows', 'rowLength', 'rowSpacing']) {
    expect(() => blockArea({ ...block, [key]: bad })).toThrow(RangeError)
  }
  expect(() => vinesPerHa({ rowSpacing: bad, vineSpacing: 1 })).toThrow(RangeError)
  expect(() => treatedArea({ area: bad, share: 1 })).toThrow(RangeError)
})

test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('a figure of %d is refused by its name', (bad) => {
  expect(() => vinesPlanted({ ...block, rows: bad })).toThrow(/rows/)
  expect(() => treatedArea({ area: 1, rowsTreated: 1, rows: bad })).toThrow(/rows/)
  if (bad !== 0) expect(() => treatedArea({ area: 1, rowsTreated: bad, rows: 4 })).toThrow(/treated rows/)
})
