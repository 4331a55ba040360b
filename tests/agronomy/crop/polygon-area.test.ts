import { expect, test } from 'vitest'
import { polygonArea, type Ring } from '../../../src/agronomy/crop/polygon-area.ts'

const square = (west: number, south: number, side: number): Ring => [
  [west, south],
  [west + side, south],
  [west + side, south + side],
  [west, south + side],
]

test('a closed ring, an open one and one the other way round have the same area', async () => {
  const ring = square(8, 50, 0.002)
  const open = await polygonArea([ring])
  expect(await polygonArea([[...ring, ring[0]!]])).toEqual(open)
  const back = await polygonArea([ring.toReversed()])
  expect(back.area).toBeCloseTo(open.area, 9)
  expect(back.perimeter).toBeCloseTo(open.perimeter, 6)
})

test('holes are taken off, whichever way they run', async () => {
  const outer = square(8, 50, 0.002)
  const hole = square(8.0005, 50.0005, 0.001)
  const all = (await polygonArea([outer])).area
  const gap = (await polygonArea([hole])).area
  expect((await polygonArea([outer, hole])).area).toBeCloseTo(all - gap, 9)
  expect((await polygonArea([outer, hole.toReversed()])).area).toBeCloseTo(all - gap, 9)
})

test('corners are longitude first: away from the equator a square of degrees is narrower than high', async () => {
  const { area, perimeter } = await polygonArea([square(8, 60, 0.01)])
  expect(area).toBeGreaterThan(61.5) // 1114 m x 558 m
  expect(area).toBeLessThan(63)
  expect(perimeter).toBeGreaterThan(3300)
})

test('across the date line the short way is taken', async () => {
  const across: Ring = [
    [179.999, 10],
    [-179.999, 10],
    [-179.999, 10.002],
    [179.999, 10.002],
  ]
  const { area } = await polygonArea([across])
  expect(area).toBeCloseTo((await polygonArea([square(8, 10, 0.002)])).area, 6)
})

test('a triangle, the edge of the globe and a hole as large as the ring are still polygons', async () => {
  const ring = square(8, 50, 0.002)
  const half = await polygonArea([ring.slice(0, 3)])
  expect(half.area / (await polygonArea([ring])).area).toBeCloseTo(0.5, 3)
  expect((await polygonArea([ring, ring])).area).toBe(0)
  const corner: Ring = [
    [180, 90],
    [179.9, 89.9],
    [180, 89.9],
  ]
  expect((await polygonArea([corner])).area).toBeGreaterThan(0)
  // 11.1 km and 111 km are its short sides, and area and outline are in ha and m.
  expect((await polygonArea([square(8, 0, 0.1)])).area / 12_308).toBeCloseTo(1, 2)
})

test('refuses what is no polygon', async () => {
  await expect(polygonArea([])).rejects.toThrow('an outer ring')
  await expect(polygonArea([[]])).rejects.toThrow('at least 3 different corners')
  await expect(polygonArea([square(8, 50, 0.002).slice(0, 2)])).rejects.toThrow(
    'at least 3 different corners',
  )
  await expect(polygonArea([square(179.999, 50, 0.002)])).rejects.toThrow('on the globe')
  await expect(polygonArea([[[8, Number.NaN], ...square(8, 50, 1)]])).rejects.toThrow('on the globe')
  await expect(polygonArea([square(8, 50, 0.001), square(8, 50, 0.002)])).rejects.toThrow('holes smaller')
})
