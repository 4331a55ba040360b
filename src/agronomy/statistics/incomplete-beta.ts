const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
]

/** Natural logarithm of the gamma function for x >= 0.5 (Lanczos, g = 7, nine terms). */
function logGamma(x: number): number {
  const t = x + 6.5
  const series = LANCZOS.reduce((sum, c, i) => (i === 0 ? c : sum + c / (x - 1 + i)), 0)
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(series)
}

/** ln B(a, 1/2). Above a = 100 by the asymptotic series of the ratio of gammas, since their difference loses digits. */
function logBetaWithHalf(a: number): number {
  if (a < 0.5) return logBetaWithHalf(a + 1) + Math.log((a + 0.5) / a)
  const logRatio =
    a > 100
      ? 0.5 * Math.log(a) - 1 / (8 * a) + 1 / (192 * a ** 3) - 1 / (640 * a ** 5)
      : logGamma(a + 0.5) - logGamma(a)
  return 0.5 * Math.log(Math.PI) - logRatio
}

/** The continued fraction of the incomplete beta function by Lentz's method, for x < (a+1)/(a+b+2). */
function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300
  const keep = (v: number): number => (Math.abs(v) < tiny ? tiny : v)
  let c = 1
  let d = 1 / keep(1 - ((a + b) * x) / (a + 1))
  let value = d
  for (let m = 1; m < 20_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / keep(1 + even * d)
    c = keep(1 + even / c)
    value *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / keep(1 + odd * d)
    c = keep(1 + odd / c)
    value *= d * c
    if (Math.abs(d * c - 1) < 1e-16) break
  }
  return value
}

/**
 * Regularised incomplete beta function I_x(a, 1/2), the one that Student's t needs. `x` and `rest` = 1 - x are both
 * given so that neither loses digits.
 * Source: continued fraction 26.5.8 of Abramowitz & Stegun (1964), Handbook of Mathematical Functions
 * (from memory).
 */
export function incompleteBetaWithHalf(x: number, rest: number, a: number): number {
  if (x <= 0) return 0
  if (rest <= 0) return 1
  const front = Math.exp(a * Math.log(x) + 0.5 * Math.log(rest) - logBetaWithHalf(a))
  if (x < (a + 1) / (a + 2.5)) return (front * betaFraction(x, a, 0.5)) / a
  return 1 - (front * betaFraction(rest, 0.5, a)) / 0.5
}
