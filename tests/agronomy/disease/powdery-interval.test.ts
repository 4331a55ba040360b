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

test('has no interval where products are not advised', () => {
  expect(powderyInterval(60, 'biological')).toBeNull()
  expect(powderyInterval(40, 'sulphur')).toEqual({ shortest: 10, longest: 17 })
})
