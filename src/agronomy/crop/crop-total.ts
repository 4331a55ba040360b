import type { CropEstimate } from './crop-estimate.ts'

/**
 * Crop of several blocks or strata together: the sum, never an average of densities.
 *
 * Errors of counting and weighing are independent and add in quadrature. Where the strata share one growth factor, as
 * every block on the default does, its error is the same for all and adds plainly; otherwise it too adds in quadrature.
 * Source: stratified sampling, e.g. Cochran 1977, "Sampling techniques", ch. 5 (from memory).
 *
 * @param options estimates of each stratum, null for one that is unknown; sharedFactor, whether one factor serves all
 * @returns kg; estimate null where a stratum is unknown, low and high null where one has no interval, with the reason
 * @example cropTotal({ estimates: [a, b], sharedFactor: true }).estimate // a.estimate + b.estimate
 */
export function cropTotal(options: { estimates: readonly (CropEstimate | null)[]; sharedFactor: boolean }): {
  estimate: number | null
  low: number | null
  high: number | null
  reason: string | null
} {
  const known = options.estimates.filter((estimate) => estimate !== null)
  if (known.length < options.estimates.length || known.length === 0) {
    const count = `${options.estimates.length - known.length} of ${options.estimates.length}`
    return { estimate: null, low: null, high: null, reason: `the crop of ${count} parts is unknown` }
  }
  const estimate = known.reduce((sum, each) => sum + each.estimate, 0)
  const halves = known.flatMap(({ halfWidth }) => halfWidth ?? [])
  if (halves.length < known.length) {
    const count = `${known.length - halves.length} of ${known.length}`
    return { estimate, low: null, high: null, reason: `the crop of ${count} parts has no interval` }
  }
  const factors = halves.map(({ factor }) => factor)
  const factor = options.sharedFactor ? factors.reduce((sum, each) => sum + each, 0) : Math.hypot(...factors)
  const half = Math.hypot(factor, ...halves.map(({ sampling }) => sampling))
  return { estimate, low: Math.max(0, estimate - half), high: estimate + half, reason: null }
}
