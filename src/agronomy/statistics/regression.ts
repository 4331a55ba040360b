import { studentQuantile } from './student.ts'

export interface Point {
  x: number
  y: number
}

export interface LineFit {
  n: number
  intercept: number
  slope: number
  /** Standard deviation about the line, n - 2 degrees of freedom. */
  s: number
  xMean: number
  /** Sum of squared distances of x from its mean. */
  sxx: number
  slopeError: number
}

interface Estimate {
  value: number
  low: number
  high: number
}

/**
 * Least-squares line y = intercept + slope x.
 * Throws a RangeError below three points (two leave nothing to judge the spread by), for points that are
 * not finite, or when all x are equal.
 * Source: any textbook; checked on Anscombe (1973), The American Statistician 27:17-21.
 */
export function fitLine(points: readonly Point[]): LineFit {
  const n = points.length
  if (n < 3) throw new RangeError('fitLine requires three points')
  if (!points.every((p) => Number.isFinite(p.x) && Number.isFinite(p.y))) {
    throw new RangeError('fitLine requires finite points')
  }
  const xMean = points.reduce((sum, p) => sum + p.x, 0) / n
  const yMean = points.reduce((sum, p) => sum + p.y, 0) / n
  const sxx = points.reduce((sum, p) => sum + (p.x - xMean) ** 2, 0)
  if (sxx === 0) throw new RangeError('fitLine requires points at two different x')
  const slope = points.reduce((sum, p) => sum + (p.x - xMean) * (p.y - yMean), 0) / sxx
  const squares = points.reduce((sum, p) => sum + (p.y - yMean - slope * (p.x - xMean)) ** 2, 0)
  const s = Math.sqrt(squares / (n - 2))
  return { n, intercept: yMean - slope * xMean, slope, s, xMean, sxx, slopeError: s / Math.sqrt(sxx) }
}

/** Two-sided 95 % value of t for a fit. */
export function fitQuantile({ n }: LineFit): number {
  return studentQuantile(0.975, n - 2)
}

/** The height of the line itself at x (the mean of many readings), with its 95 % interval. */
export function meanResponse(fit: LineFit, x: number): Estimate {
  const value = fit.intercept + fit.slope * x
  const half = fitQuantile(fit) * fit.s * Math.sqrt(1 / fit.n + (x - fit.xMean) ** 2 / fit.sxx)
  return { value, low: value - half, high: value + half }
}
