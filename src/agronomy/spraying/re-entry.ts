import { requireNotNegative } from '../statistics/require-number.ts'

/**
 * Re-entry interval of several products sprayed together: the longest.
 * @param hours of each product, null where its label gives none in hours or it isn't known
 * @returns hours, null where none is known, and how many are unknown; with unknowns the hours are the least
 *   that it can be
 * @throws RangeError where an interval is negative
 * Source: 40 CFR 170.112 (2007 text).
 */
export function longestReEntry(hours: readonly (number | null)[]): { hours: number | null; unknown: number } {
  const known = hours.filter((each) => each !== null)
  for (const each of known) requireNotNegative({ 're-entry hours': each })
  return { hours: known.length === 0 ? null : Math.max(...known), unknown: hours.length - known.length }
}

/**
 * Instant at which the re-entry interval ends, in elapsed hours from the end of the spray, not by the clock
 * on the wall, which may change between.
 * @param spray end, in hours from any fixed instant; hours to wait
 * @returns hours from the same instant
 * @throws RangeError where end is not finite or hours is negative
 * Source: 40 CFR 170.112 (2007 text): from the end of the application.
 */
export function reEntryEnds(spray: { end: number; hours: number }): number {
  if (!Number.isFinite(spray.end)) throw new RangeError(`requires an instant, got ${spray.end}`)
  requireNotNegative({ 're-entry hours': spray.hours })
  return spray.end + spray.hours
}
