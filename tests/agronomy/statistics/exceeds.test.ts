import { expect, test } from 'vitest'
import { exceeds } from '../../../src/agronomy/statistics/exceeds.ts'
import {
  requireNotNegative,
  requirePositive,
  requireShare,
} from '../../../src/agronomy/statistics/require-number.ts'

test('binary fractions do not exceed, a millionth does', () => {
  expect(exceeds(0.1 + 0.2, 0.3)).toBe(false)
  expect(exceeds(1.1 - 1, 0.1)).toBe(false)
  expect(exceeds(0.3, 0.3)).toBe(false)
  expect(exceeds(0.300001, 0.3)).toBe(true)
  expect(exceeds(0.299999, 0.3)).toBe(false)
  expect(exceeds(1e-6, 0)).toBe(true)
  expect(exceeds(0, 0)).toBe(false)
})

test('figures are refused by name', () => {
  expect(() => requirePositive({ flow: 1, speed: 0 })).toThrow('requires a positive speed, got 0')
  expect(() => requireNotNegative({ dose: -0.1 })).toThrow('requires dose of 0 or more, got -0.1')
  expect(() => requireShare({ share: 1.0001 })).toThrow('requires share from 0 to 1, got 1.0001')
  expect(() => requireShare({ share: Number.NaN })).toThrow(RangeError)
})

test('both ends of each range are inside', () => {
  expect(() => requirePositive({ a: 1e-12, b: 1e15 })).not.toThrow()
  expect(() => requireNotNegative({ a: 0, b: 1e15 })).not.toThrow()
  expect(() => requireShare({ a: 0, b: 1 })).not.toThrow()
})
