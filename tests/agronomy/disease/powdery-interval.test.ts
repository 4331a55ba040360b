import { expect, test } from 'vitest'
import { longestPowderyInterval, powderyPressure } from '../../../src/agronomy/disease/powdery-interval.ts'

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
  expect(longestPowderyInterval(60, 'biological')).toBeNull()
  expect(longestPowderyInterval(40, 'sulphur')).toBe(17)
})
