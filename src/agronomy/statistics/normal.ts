/** Density of the standard normal distribution at x. */
function normalDensity(x: number): number {
  return Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI)
}

/** Upper tail for x >= 5 by Laplace's continued fraction, which keeps small tails exact. */
function farTail(x: number): number {
  let fraction = x
  for (let k = 60; k >= 1; k--) fraction = x + k / fraction
  return normalDensity(x) / fraction
}

/**
 * Probability that a standard normal value is at most x.
 * Series about zero in the body, continued fraction in the tails; absolute error below 1e-14.
 * Throws a RangeError when x is not a number.
 * Source: Marsaglia, G. (2004), Evaluating the normal distribution, J. Statistical Software 11(4) (from memory).
 */
export function normalCdf(x: number): number {
  if (Number.isNaN(x)) throw new RangeError('normalCdf requires a number')
  // Beyond this, the tail is less than half of the last digit of 1.
  if (x >= 8.5) return 1
  if (x >= 5) return 1 - farTail(x)
  if (x <= -5) return farTail(-x)
  let term = x
  let sum = x
  for (let k = 3; Math.abs(term) > 1e-18 * Math.abs(sum); k += 2) {
    term *= (x * x) / k
    sum += term
  }
  return 0.5 + normalDensity(x) * sum
}

/**
 * The standard normal value below which a share p lies, 0 < p < 1. Throws a RangeError for any other p.
 * Bisection on normalCdf in the lower tail, mirrored for the upper.
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError('normalQuantile requires a share between 0 and 1')
  if (p > 0.5) return -normalQuantile(1 - p)
  let low = -40
  let high = 0
  for (let step = 0; step < 80; step++) {
    const middle = (low + high) / 2
    if (normalCdf(middle) < p) low = middle
    else high = middle
  }
  return p === 0.5 ? 0 : (low + high) / 2
}
