import { expect, test } from 'vitest'
import { activePerHa, copperPerHa } from '../../../src/agronomy/spraying/active-content.ts'

test('3 kg of an 800 g/kg product hold 2.4 kg', () => {
  expect(activePerHa({ productPerHa: 3, content: 800 })).toBeCloseTo(2.4, 12)
  expect(activePerHa({ productPerHa: 0, content: 800 })).toBe(0)
})

test('a content stated as metal is not multiplied again', () => {
  expect(copperPerHa({ productPerHa: 2, content: 500 })).toBe(1)
  // Cu 63.546 of Cu(OH)2 97.56.
  expect(copperPerHa({ productPerHa: 2, content: 500, compound: 'hydroxide' })).toBeCloseTo(63.546 / 97.56, 4)
})

test.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s as dose or content', (bad) => {
  expect(() => activePerHa({ productPerHa: bad, content: 800 })).toThrow(RangeError)
  expect(() => activePerHa({ productPerHa: 1, content: bad })).toThrow(RangeError)
  expect(() => copperPerHa({ productPerHa: bad, content: 500 })).toThrow(RangeError)
  expect(() => activePerHa({ productPerHa: 1, content: 0 })).toThrow(RangeError)
})
