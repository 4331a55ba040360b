import { DuckDBInstance } from '@duckdb/node-api'
import stdlibQuantile from '@stdlib/stats-base-dists-t-quantile'
import { beforeAll, describe, expect, test } from 'vitest'
import { fitLine, meanResponse, type Point } from '../../src/agronomy/statistics/regression.ts'
import { gaussian, seeded } from '../agronomy/seeded.ts'

/**
 * The line and its mean response against a library: the regression aggregates of DuckDB 1.5
 * (regr_slope, regr_intercept, regr_sxx, regr_syy, regr_sxy) and Student's t of @stdlib/stats-base-dists-t-quantile.
 * The mean response at x0 is the intercept of the line through points that are shifted by x0.
 */
interface Reference {
  slope: number
  intercept: number
  s: number
  sxx: number
  slopeError: number
  /** Standard error of the intercept, that is of the mean response at 0. */
  interceptError: number
}

type Query = (points: readonly Point[], shift: number) => Promise<Reference>
let reference: Query

beforeAll(async () => {
  const connection = await (await DuckDBInstance.create(':memory:')).connect()
  reference = async (points, shift) => {
    const rows = points.map(({ x, y }) => `(${x}::DOUBLE - (${shift})::DOUBLE, ${y}::DOUBLE)`).join(', ')
    const query = `SELECT regr_slope(y, x), regr_intercept(y, x), regr_sxx(y, x), regr_syy(y, x), regr_sxy(y, x), regr_avgx(y, x) FROM (VALUES ${rows}) AS points(x, y)`
    const reader = await connection.runAndReadAll(query)
    const [slope, intercept, sxx, syy, sxy, mean] = reader.getRows()[0]!.map(Number) as [
      ...[number, number, number, number, number, number],
    ]
    const s = Math.sqrt((syy - sxy ** 2 / sxx) / (points.length - 2))
    const interceptError = s * Math.sqrt(1 / points.length + mean ** 2 / sxx)
    return { slope, intercept, s, sxx, slopeError: s / Math.sqrt(sxx), interceptError }
  }
})

const random = seeded(31)
const CASES = [
  { name: 'thermometer', from: 96, step: 2, n: 8, start: 95.7, rate: 1.03, noise: 0.2, at: 104 },
  { name: 'three weekly samples', from: 0, step: 7, n: 3, start: 14, rate: 0.2, noise: 0.3, at: 28 },
  { name: 'five weekly samples', from: 20_000, step: 7, n: 5, start: 12, rate: 0.25, noise: 0.4, at: 20_042 },
  { name: 'twenty, falling', from: -10, step: 1, n: 20, start: 14, rate: -0.4, noise: 1, at: 15 },
  { name: 'by heat', from: 2000, step: 110, n: 6, start: 13, rate: 0.012, noise: 0.3, at: 2800 },
].map(({ from, step, n, start, rate, noise, ...rest }) => ({
  ...rest,
  points: [...Array(n).keys()].map((index) => ({
    x: from + step * index,
    y: start + rate * step * index + noise * gaussian(random),
  })),
}))

/** Agreement to nine digits, or to 1e-7 where day numbers near 20 000 cost some. */
const near = (got: number, want: number) =>
  expect(Math.abs(got - want)).toBeLessThanOrEqual(1e-7 * Math.max(1, Math.abs(want)))

describe.each(CASES)('$name', ({ points, at }) => {
  const fit = fitLine(points)

  test('line, spread and error of the slope', async () => {
    const want = await reference(points, 0)
    near(fit.slope, want.slope)
    near(fit.intercept, want.intercept)
    near(fit.s, (await reference(points, points[0]!.x)).s)
    near(fit.slopeError, (await reference(points, points[0]!.x)).slopeError)
  })

  test('mean with its limits', async () => {
    const { intercept, interceptError } = await reference(points, at)
    const t = stdlibQuantile(0.975, points.length - 2)
    const mean = meanResponse(fit, at)
    near(mean.value, intercept)
    near(mean.low, intercept - t * interceptError)
    near(mean.high, intercept + t * interceptError)
  })
})
