import { expect, test } from 'vitest'
import { chanceAbove, fitSlowingLine, reachOf } from '../../../src/agronomy/ripening/slowing-line.ts'
import { fitLine, meanResponse } from '../../../src/agronomy/statistics/regression.ts'

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
/** The model itself, summed over a grid of levels, rates and spreads: another path than the closed form. */
function byGrid(reach: readonly number[], prior: typeof BELIEVED) {
  const n = reach.length
  const [middle, top] = [POINTS.reduce((sum, { y }) => sum + y, 0) / n, 0.9]
  let [all, first, second] = [0, 0, 0]
  for (let spread = 0.06; spread < 4; spread *= 1.04) {
    const rateSpread = (spread * prior.rateSpread) / prior.noise
    // Inverse gamma of the variance, by the logarithm of the spread.
    const noise =
      -prior.noiseWeight * Math.log(spread) - (prior.noiseWeight * prior.noise ** 2) / (2 * spread ** 2)
    for (let rate = -top; rate <= top; rate += 0.01) {
      const belief = -Math.log(rateSpread) - (rate - prior.rate) ** 2 / (2 * rateSpread ** 2)
      // The level's integral runs over all levels alike; its grid is as fine as the spread asks.
      const step = spread / 6
      let levels = 0
      const centre = middle - (rate * reach.reduce((sum, one) => sum + one, 0)) / n
      for (let at = -18; at <= 18; at += 1) {
        const level = centre + at * step
        let squares = 0
        for (const [i, { y }] of POINTS.entries()) squares += (y - level - rate * reach[i]!) ** 2
        levels += Math.exp(-squares / (2 * spread ** 2) - n * Math.log(spread))
      }
      const weight = Math.exp(noise + belief) * levels * step
      all += weight
      first += weight * rate
      second += weight * rate ** 2
    }
  }
  return { support: Math.log(all), rate: first / all, variance: second / all - (first / all) ** 2 }
}
const BELIEVED = { noise: 0.4, noiseWeight: 6, rate: 0.2, rateSpread: 0.05 }

test('rate, its spread and the support of a pace are those of the model summed over a grid', () => {
  const paces = [STRAIGHT, SLOWING, { slowing: -0.06, bend: 0.006 }]
  const [own, grid] = [
    paces.map((pace) => fitSlowingLine(POINTS, pace, BELIEVED)),
    paces.map((pace) =>
      byGrid(
        POINTS.map(({ x }) => reachOf(x, pace)),
        BELIEVED,
      ),
    ),
  ]
  for (const [i, line] of own.entries()) {
    expect(line.df).toBe(10)
    expect(Math.abs(line.rate - grid[i]!.rate) / line.rateError).toBeLessThan(0.02)
    expect((line.rateError ** 2 * line.df) / (line.df - 2) / grid[i]!.variance).toBeCloseTo(1, 1)
    expect(line.support - own[0]!.support).toBeCloseTo(grid[i]!.support - grid[0]!.support, 2)
  }
})
test('two points are enough, and the spread is least at their middle', () => {
  const line = fitSlowingLine(POINTS.slice(0, 2), STRAIGHT, BELIEVED)
  expect(line.df).toBe(7)
  expect(line.spreadAt(-24.5)).toBeLessThan(line.spreadAt(-28))
  expect(line.spreadAt(-28)).toBeCloseTo(line.spreadAt(-21), 9)
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
