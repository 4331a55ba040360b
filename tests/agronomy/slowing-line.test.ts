import { expect, test } from 'vitest'
import { fitLine, meanResponse } from '../../src/agronomy/regression.ts'
import { chanceAbove, fitSlowingLine, reachOf } from '../../src/agronomy/slowing-line.ts'

const POINTS = [12.3, 14.1, 16.4, 17.9, 19.6].map((y, i) => ({ x: 7 * (i - 4), y }))
const STRAIGHT = { slowing: 0, bend: 0 }
const SLOWING = { slowing: 0.03, bend: 0 }
const VAGUE = { noise: 1e-6, noiseWeight: 1e-9, rate: 0, rateSpread: 1e3 }

test('with nothing believed beforehand and no slowing it is the least-squares line', () => {
  const line = fitSlowingLine(POINTS, STRAIGHT, VAGUE)
  const fit = fitLine(POINTS)
  expect(line.rate).toBeCloseTo(fit.slope, 9)
  expect(line.level).toBeCloseTo(fit.intercept, 9)
  // The rate's belief is worth one reading, so that df is n - 1 and not n - 2.
  const half = meanResponse(fit, 14).high - meanResponse(fit, 14).value
  const ownHalf = line.spreadAt(14) * Math.sqrt(4 / 3) * 3.182446305284263
  expect(ownHalf).toBeCloseTo(half, 6)
})
test('reach: a slowing rate carries less far ahead, and came from further behind', () => {
  expect(reachOf(10, STRAIGHT)).toBe(10)
  expect(reachOf(10, SLOWING)).toBeCloseTo((1 - Math.exp(-0.3)) / 0.03, 12)
  expect(reachOf(10, { slowing: 1e-12, bend: 0 })).toBeCloseTo(10, 6)
  expect(reachOf(-10, SLOWING)).toBeLessThan(-10)
})
test('the line is at its own level with one chance in two', () => {
  const line = fitSlowingLine(POINTS, SLOWING, { noise: 0.4, noiseWeight: 4, rate: 0.25, rateSpread: 0.2 })
  expect(chanceAbove(line, 0, line.level)).toBeCloseTo(0.5, 12)
})
test('needs two points', () => {
  expect(() => fitSlowingLine(POINTS.slice(0, 1), STRAIGHT, VAGUE)).toThrow(RangeError)
})
test('a bend makes the rise a bell: its reach is the area under a normal curve', () => {
  // Integral of exp(-u² / 2 s²) from 0 to 2 s is s sqrt(2 pi) times 0.4772499 (any table of the normal curve).
  const s = 1 / Math.sqrt(0.003)
  expect(reachOf(2 * s, { slowing: 0, bend: 0.003 })).toBeCloseTo(s * Math.sqrt(2 * Math.PI) * 0.47724987, 5)
  expect(reachOf(-2 * s, { slowing: 0, bend: 0.003 })).toBeCloseTo(
    -s * Math.sqrt(2 * Math.PI) * 0.47724987,
    5,
  )
  expect(reachOf(20, { slowing: 0.02, bend: 1e-9 })).toBeCloseTo(reachOf(20, { slowing: 0.02, bend: 0 }), 5)
})
