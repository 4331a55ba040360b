import fc from 'fast-check'
import { expect, test } from 'vitest'
import { requiredFlow } from '../../../src/agronomy/spraying/calibration.ts'
import { mostSprayed, passTime } from '../../../src/agronomy/spraying/pass-time.ts'

test('a hectare at 5 km/h and 2 m takes an hour', () => {
  expect(passTime({ area: 1, speed: 5, width: 2 })).toEqual({
    minutes: 60,
    minutesPerTank: null,
    fills: null,
    refills: null,
  })
})

test('with flow and tank the fills are counted', () => {
  expect(passTime({ area: 1, speed: 5, width: 2, flow: 5, tank: 200 })).toEqual({
    minutes: 60,
    minutesPerTank: 40,
    fills: 2,
    refills: 1,
  })
})

test('exactly one tank needs no refill, a little more needs one', () => {
  expect(passTime({ area: 1, speed: 5, width: 2, flow: 5, tank: 300 }).refills).toBe(0)
  expect(passTime({ area: 1.001, speed: 5, width: 2, flow: 5, tank: 300 }).refills).toBe(1)
})

test('the nozzles put out the volume in the time', () => {
  const figure = fc.double({ min: 0.1, max: 100, noNaN: true })
  fc.assert(
    fc.property(figure, figure, figure, figure, (area, speed, width, volumePerHa) => {
      const flow = requiredFlow({ volumePerHa, speed, width })
      const { minutes } = passTime({ area, speed, width })
      expect(mostSprayed({ flow, minutes }) / (area * volumePerHa)).toBeCloseTo(1, 9)
    }),
  )
})

test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s', (bad) => {
  expect(() => passTime({ area: bad, speed: 5, width: 2 })).toThrow(RangeError)
  expect(() => passTime({ area: 1, speed: bad, width: 2 })).toThrow(RangeError)
  expect(() => passTime({ area: 1, speed: 5, width: 2, flow: bad, tank: 200 })).toThrow(RangeError)
  expect(() => mostSprayed({ flow: 5, minutes: bad })).toThrow(RangeError)
})
