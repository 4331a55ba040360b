import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  courseLength,
  PLOT_AREA,
  pressureForFlow,
  requiredFlow,
  speedFromRun,
  volumePerHectare,
  volumePerHectareFromPlot,
} from '../../../src/agronomy/spraying/calibration.ts'

const figure = fc.double({ min: 1e-3, max: 1e4, noNaN: true })

test('the flow needed for a volume gives that volume', () => {
  fc.assert(
    fc.property(figure, figure, figure, (volumePerHa, speed, width) => {
      const flow = requiredFlow({ volumePerHa, speed, width })
      expect(volumePerHectare({ flow, speed, width }) / volumePerHa).toBeCloseTo(1, 9)
    }),
  )
})

test('driving a run and spraying it gives the same volume by flow and by area', () => {
  fc.assert(
    fc.property(figure, figure, figure, figure, (flow, distance, seconds, width) => {
      const speed = speedFromRun({ distance, seconds })
      const byArea = volumePerHectareFromPlot({ litres: (flow * seconds) / 60, area: distance * width })
      expect(volumePerHectare({ flow, speed, width }) / byArea).toBeCloseTo(1, 9)
    }),
  )
})

test('half the flow needs a quarter of the pressure', () => {
  expect(pressureForFlow({ pressure: 10, flow: 2, wantedFlow: 1 })).toBe(2.5)
})

test('the course times the swath is the plot', () => {
  fc.assert(
    fc.property(figure, (swath) => {
      expect(courseLength(swath) * swath).toBeCloseTo(PLOT_AREA, 9)
    }),
  )
})

test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY, 1e-13, 1e16])('refuses %s as a figure', (bad) => {
  const good = { flow: 1, speed: 5, width: 2 }
  for (const key of ['flow', 'speed', 'width']) {
    expect(() => volumePerHectare({ ...good, [key]: bad })).toThrow(`requires a positive ${key}, got ${bad}`)
  }
  expect(() => speedFromRun({ distance: 10, seconds: bad })).toThrow(RangeError)
  expect(() => courseLength(bad)).toThrow(RangeError)
  expect(() => pressureForFlow({ pressure: 1, flow: bad, wantedFlow: 1 })).toThrow(RangeError)
})

test('the smallest and the largest figures still give a finite volume', () => {
  expect(volumePerHectare({ flow: 1e15, speed: 1e-12, width: 1e-12 })).toBeLessThan(Number.POSITIVE_INFINITY)
  expect(volumePerHectare({ flow: 1e-12, speed: 1e15, width: 1e15 })).toBeGreaterThan(0)
})
