import { expect, test } from 'vitest'
import { fitLine, meanResponse } from '../../src/agronomy/regression.ts'
import { fitSlowingLine, reachedBy, reachOf } from '../../src/agronomy/slowing-line.ts'

const POINTS = [12.3, 14.1, 16.4, 17.9, 19.6].map((y, i) => ({ x: 7 * (i - 4), y }))
const VAGUE = { noise: 1e-6, noiseWeight: 1e-9, rate: 0, rateSpread: 1e3 }

test('with nothing believed beforehand and no slowing it is the least-squares line', () => {
  const line = fitSlowingLine(POINTS, 0, VAGUE)
  const fit = fitLine(POINTS)
  expect(line.rate).toBeCloseTo(fit.slope, 9)
  expect(line.level).toBeCloseTo(fit.intercept, 9)
  // The rate's belief is worth one reading, so that df is n - 1 and not n - 2.
  const half = meanResponse(fit, 14).high - meanResponse(fit, 14).value
  const ownHalf = line.spreadAt(14) * Math.sqrt(4 / 3) * 3.182446305284263
  expect(ownHalf).toBeCloseTo(half, 6)
})
test('reach: a slowing rate carries less far ahead, and came from further behind', () => {
  expect(reachOf(10, 0)).toBe(10)
  expect(reachOf(10, 0.03)).toBeCloseTo((1 - Math.exp(-0.3)) / 0.03, 12)
  expect(reachOf(10, 1e-12)).toBeCloseTo(10, 6)
  expect(reachOf(-10, 0.03)).toBeLessThan(-10)
})
test('the line is at its own level with one chance in two', () => {
  const line = fitSlowingLine(POINTS, 0.02, { noise: 0.4, noiseWeight: 4, rate: 0.25, rateSpread: 0.2 })
  expect(reachedBy(line, 0, { target: line.level, slowing: 0.02 })).toBeCloseTo(0.5, 12)
})
test('needs two points', () => {
  expect(() => fitSlowingLine(POINTS.slice(0, 1), 0, VAGUE)).toThrow(RangeError)
})
