import { expect, test } from 'vitest'
import { powderyInterval, powderyPressure } from '../../../src/agronomy/disease/powdery-interval.ts'

test('bands on both sides of their limits', () => {
  expect([0, 30, 40, 50, 60, 100].map(powderyPressure)).toEqual([
    'low',
    'low',
    'moderate',
    'moderate',
    'high',
    'high',
  ])
  expect(() => powderyPressure(101)).toThrow(RangeError)
  expect(() => powderyPressure(Number.NaN)).toThrow(RangeError)
})

test('says that it is from memory, and has no interval where products are not advised', () => {
  expect(powderyInterval(60, 'biological')).toEqual({ pressure: 'high', days: null, basis: 'from memory' })
  expect(powderyInterval(40, 'sulphur')).toEqual({
    pressure: 'moderate',
    days: { shortest: 10, longest: 17 },
    basis: 'from memory',
  })
})
