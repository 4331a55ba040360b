import { expect, test } from 'vitest'
import { sphericalArea } from '../../../src/agronomy/crop/spherical-area.ts'
import { ellipsoidArea } from '../../ellipsoid-area.ts'

type Ring = Parameters<typeof sphericalArea>[0][number]

const rows: Ring = [
  [7.1, 51.5],
  [7.1031, 51.5004],
  [7.1029, 51.5021],
  [7.0998, 51.5017],
]
const gap: Ring = [
  [7.1008, 51.5007],
  [7.1014, 51.5008],
  [7.1013, 51.5013],
]
const southern = rows.map(([longitude, latitude]) => [longitude, 16.4 - latitude] as const)

test.each([
  ['a block in the north', [rows]],
  ['a block in the south', [southern]],
  ['a block run round the other way', [rows.toReversed()]],
  ['a block whose first corner is repeated', [[...rows, rows[0]!]]],
  ['a block with a hole', [rows, gap]],
  ['a block with a hole run round the other way', [rows, gap.toReversed()]],
])('%s is within 0.5 %% of the ellipsoid (geographiclib-geodesic)', (_, rings) => {
  const area = ellipsoidArea(rings)
  expect(area).toBeGreaterThan(2)
  expect(Math.abs(sphericalArea(rings) / area - 1)).toBeLessThan(0.005)
})

test('an octant of the sphere is an eighth of its surface', () => {
  const octant: Ring = [
    [0, 0],
    [90, 0],
    [90, 90],
    [0, 90],
  ]
  expect(sphericalArea([octant])).toBeCloseTo((4 * Math.PI * 6371.0088 ** 2 * 100) / 8, 0)
})

test('no ring is no area', () => expect(sphericalArea([])).toBe(0))
