import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  diluteFromRowVolume,
  diluteFromUnitCanopyRows,
  leafWallPerHa,
  rowVolumePerHa,
  unitCanopyRowsPerHa,
} from '../../../src/agronomy/spraying/canopy.ts'

const metre = fc.double({ min: 0.05, max: 20, noNaN: true })

test('a leaf wall has two sides and grows with its height', () => {
  expect(leafWallPerHa({ treatedHeight: 1, rowSpacing: 2.5 })).toBe(8000)
  expect(leafWallPerHa({ treatedHeight: 0.5, rowSpacing: 2.5 })).toBe(4000)
})

test('the dilute volume is the same from row volume and from unit canopy rows of 100 m³', () => {
  fc.assert(
    fc.property(metre, metre, metre, metre, (height, width, rowSpacing, litres) => {
      const canopy = { height, width, rowSpacing }
      const byVolume = diluteFromRowVolume({
        rowVolumePerHa: rowVolumePerHa(canopy),
        litresPerCubicMetre: litres,
      })
      const byUnit = diluteFromUnitCanopyRows({
        unitsPerHa: unitCanopyRowsPerHa(canopy),
        litresPerUnit: litres * 100,
      })
      expect(byUnit / byVolume).toBeCloseTo(1, 9)
    }),
  )
})

test.each([0, -1, Number.NaN])('refuses %s as a measure', (bad) => {
  expect(() => leafWallPerHa({ treatedHeight: bad, rowSpacing: 2 })).toThrow(RangeError)
  expect(() => leafWallPerHa({ treatedHeight: 1, rowSpacing: bad })).toThrow(RangeError)
  expect(() => rowVolumePerHa({ height: 1, width: bad, rowSpacing: 2 })).toThrow(RangeError)
  expect(() => diluteFromUnitCanopyRows({ unitsPerHa: 35, litresPerUnit: bad })).toThrow(RangeError)
})
