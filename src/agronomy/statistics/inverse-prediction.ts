import { fitQuantile, type LineFit } from './regression.ts'

interface InverseOptions {
  /** Share, 0.95 for 95 %. */
  level?: number
  /** How many new readings y0 is the mean of; 'mean' asks where the line itself reaches y0. */
  newReadings: number | 'mean'
}

interface InversePrediction {
  /** Where the line is at y0; null when the line is level. */
  x: number | null
  /** Ends of the interval; null when g >= 1, since then no finite interval exists. */
  low: number | null
  high: number | null
  /** Square of t over the slope's own t: below 1 the slope differs from zero at this level. */
  g: number
}

function shareOfNew(newReadings: number | 'mean'): number {
  if (newReadings === 'mean') return 0
  if (!(newReadings >= 1)) throw new RangeError('inverse prediction requires one new reading or more')
  return 1 / newReadings
}

/**
 * The x at which y0 is reached, with Fieller's limits.
 * With several new readings the spread stays that about the line, with n - 2 degrees of freedom; some
 * programs pool the new readings' own spread and differ a little.
 * Throws a RangeError for fewer than one new reading.
 * Source: Graybill & Iyer (1994), Regression Analysis, ch. 6; formula as in Greenwell & Schubert Kabban
 * (2014), R Journal 6(1).
 */
export function inversePrediction(fit: LineFit, y0: number, options: InverseOptions): InversePrediction {
  const { level = 0.95, newReadings } = options
  const share = shareOfNew(newReadings)
  const t = fitQuantile(fit, level)
  const g = fit.slope === 0 ? Number.POSITIVE_INFINITY : (t * fit.slopeError) ** 2 / fit.slope ** 2
  if (fit.slope === 0) return { x: null, low: null, high: null, g }
  const x = (y0 - fit.intercept) / fit.slope
  if (g >= 1) return { x, low: null, high: null, g }
  const away = x - fit.xMean
  const half =
    ((t * fit.s) / Math.abs(fit.slope)) * Math.sqrt((1 - g) * (share + 1 / fit.n) + away ** 2 / fit.sxx)
  return { x, low: fit.xMean + (away - half) / (1 - g), high: fit.xMean + (away + half) / (1 - g), g }
}

/**
 * Standard error of that x by the approximate (Wald) way, which sets g to zero: symmetric, always finite,
 * and too hopeful from few points. Null when the line is level. Source: as inversePrediction.
 */
export function inverseStandardError(fit: LineFit, y0: number, newReadings: number | 'mean'): number | null {
  if (fit.slope === 0) return null
  const away = (y0 - fit.intercept) / fit.slope - fit.xMean
  const share = shareOfNew(newReadings)
  return (fit.s / Math.abs(fit.slope)) * Math.sqrt(share + 1 / fit.n + away ** 2 / fit.sxx)
}
