import fc from 'fast-check'
import { expect, test } from 'vitest'
import { roundForScale } from '../../../src/agronomy/spraying/round-for-scale.ts'

test('rounds to what the scale shows', () => {
  expect(roundForScale(0.4284, 0.005).amount).toBe(0.43)
})

test('an amount on a step stays, without a rest of binary fractions', () => {
  expect(roundForScale(0.3, 0.1)).toEqual({ amount: 0.3, reason: null })
})

test('half a step rounds up, less would vanish and is refused with the reason', () => {
  expect(roundForScale(0.0025, 0.005).amount).toBe(0.005)
  expect(roundForScale(0.0024, 0.005)).toMatchObject({ amount: null })
  expect(roundForScale(0.0024, 0.005).reason).toContain('half a step')
})

test('nothing stays nothing', () => {
  expect(roundForScale(0, 0.005)).toEqual({ amount: 0, reason: null })
})

test('never further off than half a step', () => {
  const figure = fc.double({ min: 1e-4, max: 1e3, noNaN: true })
  fc.assert(
    fc.property(figure, figure, (amount, step) => {
      const got = roundForScale(amount, step)
      if (got.amount === null) expect(amount).toBeLessThan(step / 2)
      else expect(Math.abs(got.amount - amount)).toBeLessThanOrEqual((step / 2) * (1 + 1e-9) + 1e-12)
    }),
  )
})

test('goes down where the step above would pass the most, and refuses where nothing would be left', () => {
  expect(roundForScale(1.32, 0.5, 1.32).amount).toBe(1)
  expect(roundForScale(1.32, 0.5, 1.5).amount).toBe(1.5)
  expect(roundForScale(0.3, 0.5, 0.3)).toMatchObject({ amount: null })
  expect(roundForScale(0.3, 0.5, 0.3).reason).toContain('over the label')
})

test('what is above the most by itself is rounded as it is', () => {
  expect(roundForScale(1.4, 0.5, 1.32).amount).toBe(1.5)
})

test('never passes a most that the amount keeps', () => {
  const figure = fc.double({ min: 1e-3, max: 1e3, noNaN: true })
  const room = fc.double({ min: 1, max: 1.5, noNaN: true })
  fc.assert(
    fc.property(figure, figure, room, (amount, step, times) => {
      const got = roundForScale(amount, step, amount * times).amount
      if (got !== null) expect(got).toBeLessThanOrEqual(amount * times * (1 + 1e-9))
    }),
  )
})

test('refuses a step of nothing and a negative amount', () => {
  expect(() => roundForScale(1, 0)).toThrow(RangeError)
  expect(() => roundForScale(-1, 1)).toThrow(RangeError)
})
