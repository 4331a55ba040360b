import fc from 'fast-check'
import { expect, test } from 'vitest'
import { activePerHa, productForActive } from '../../../src/agronomy/spraying/active-content.ts'
import { copperPerHa, copperShare } from '../../../src/agronomy/spraying/copper-content.ts'

test('3 kg of an 800 g/kg product hold 2.4 kg', () => {
  expect(activePerHa({ productPerHa: 3, content: 800 })).toBeCloseTo(2.4, 12)
  expect(activePerHa({ productPerHa: 0, content: 800 })).toBe(0)
})

test('product for an active and active of a product undo each other', () => {
  const figure = fc.double({ min: 1e-3, max: 1000, noNaN: true })
  fc.assert(
    fc.property(figure, figure, (active, content) => {
      const product = productForActive({ activePerHa: active, content })
      expect(activePerHa({ productPerHa: product, content }) / active).toBeCloseTo(1, 9)
    }),
  )
})

test('a content stated as metal is not multiplied again', () => {
  expect(copperPerHa({ productPerHa: 2, content: 500 })).toBe(1)
  expect(copperPerHa({ productPerHa: 2, content: 500, compound: 'hydroxide' })).toBeCloseTo(
    copperShare('hydroxide'),
    12,
  )
})

test.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s as dose or content', (bad) => {
  expect(() => activePerHa({ productPerHa: bad, content: 800 })).toThrow(RangeError)
  expect(() => activePerHa({ productPerHa: 1, content: bad })).toThrow(RangeError)
  expect(() => copperPerHa({ productPerHa: bad, content: 500 })).toThrow(RangeError)
  expect(() => productForActive({ activePerHa: 1, content: 0 })).toThrow(RangeError)
})
