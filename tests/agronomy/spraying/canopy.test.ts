import { expect, test } from 'vitest'
import { diluteFromRowVolume, leafWallPerHa, rowVolumePerHa } from '../../../src/agronomy/spraying/canopy.ts'

test('a leaf wall has two sides and grows with its height', () => {
  expect(leafWallPerHa({ treatedHeight: 1, rowSpacing: 2.5 })).toBe(8000)
  expect(leafWallPerHa({ treatedHeight: 0.5, rowSpacing: 2.5 })).toBe(4000)
})

test('the dilute volume is the row volume times the litres for a cubic metre', () => {
  const rowVolume = rowVolumePerHa({ height: 1.4, width: 0.5, rowSpacing: 2 })
  expect(diluteFromRowVolume({ rowVolumePerHa: rowVolume, litresPerCubicMetre: 0.2 })).toBeCloseTo(700, 9)
})

test.each([0, -1, Number.NaN])('refuses %s as a measure', (bad) => {
  expect(() => leafWallPerHa({ treatedHeight: bad, rowSpacing: 2 })).toThrow(RangeError)
  expect(() => leafWallPerHa({ treatedHeight: 1, rowSpacing: bad })).toThrow(RangeError)
  expect(() => rowVolumePerHa({ height: 1, width: bad, rowSpacing: 2 })).toThrow(RangeError)
  expect(() => diluteFromRowVolume({ rowVolumePerHa: 3500, litresPerCubicMetre: bad })).toThrow(RangeError)
})
