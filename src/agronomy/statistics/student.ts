import { incompleteBetaWithHalf } from './incomplete-beta.ts'
import { normalCdf } from './normal.ts'

/** Above this many degrees of freedom the first correction to the normal curve is exact to 1e-12. */
const NEARLY_NORMAL = 1e6

/** Probability of a value below -|t|. */
function lowerTail(t: number, df: number): number {
  const size = Math.abs(t)
  if (!Number.isFinite(size)) return 0
  if (df > NEARLY_NORMAL) {
    const density = Math.exp(-0.5 * size * size) / Math.sqrt(2 * Math.PI)
    return normalCdf(-size) + (density * (size ** 3 + size)) / (4 * df)
  }
  const square = size * size
  if (!Number.isFinite(square)) return 0.5 * incompleteBetaWithHalf(df / size / size, 1, df / 2)
  return 0.5 * incompleteBetaWithHalf(df / (df + square), square / (df + square), df / 2)
}

/**
 * Probability that Student's t with `df` degrees of freedom is at most t. `df` may be fractional.
 * Absolute error below 1e-9. Throws a RangeError unless df > 0 and t is a number.
 * Source: Student (1908), The probable error of a mean, Biometrika 6:1-25; as I_x(df/2, 1/2) in
 * Abramowitz & Stegun (1964), 26.7.1 (from memory).
 */
export function studentCdf(t: number, df: number): number {
  if (!(df > 0)) throw new RangeError('studentCdf requires more than 0 degrees of freedom')
  if (Number.isNaN(t)) throw new RangeError('studentCdf requires a number')
  const tail = lowerTail(t, df)
  return t < 0 ? tail : 1 - tail
}

/**
 * The value of Student's t below which a share p lies, 0 < p < 1, with `df` degrees of freedom (may be
 * fractional). Throws a RangeError for any other p or df. By the Illinois rule on the tail, to the last digit
 * (Dowell & Jarratt 1971, BIT 11:168-174, from memory).
 */
export function studentQuantile(p: number, df: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError('studentQuantile requires a share between 0 and 1')
  if (!(df > 0)) throw new RangeError('studentQuantile requires more than 0 degrees of freedom')
  if (p === 0.5) return 0
  const tail = Math.min(p, 1 - p)
  let low = 0
  let high = 1
  while (lowerTail(high, df) > tail) {
    low = high
    high *= 2
  }
  // The logarithm of the tail is nearly a straight line, so this takes a tenth of the steps of bisection.
  const over = (t: number) => Math.log(lowerTail(t, df) / tail)
  let atLow = over(low)
  let atHigh = over(high)
  let size = high
  let side = 0
  for (let step = 0; step < 80 && atHigh !== 0; step++) {
    const next = high - (atHigh * (high - low)) / (atHigh - atLow)
    const isClose = Math.abs(next - size) <= 1e-15 * next
    size = next
    if (isClose) break
    const found = over(next)
    if (found > 0) {
      if (side > 0) atHigh /= 2
      low = next
      atLow = found
      side = 1
    } else {
      if (side < 0) atLow /= 2
      high = next
      atHigh = found
      side = -1
    }
  }
  return p < 0.5 ? -size : size
}
