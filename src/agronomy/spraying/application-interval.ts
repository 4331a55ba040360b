import { requireNotNegative } from '../statistics/require-number.ts'

/**
 * Days from each application to the next, of one product on one block.
 * @param days day numbers of the applications, in any order
 * @returns one number fewer than there are applications, oldest first
 * @throws RangeError where a day number is not whole
 */
export function applicationIntervals(days: readonly number[]): number[] {
  for (const day of days)
    if (!Number.isSafeInteger(day)) throw new RangeError(`requires whole day numbers, got ${day}`)
  const ordered = days.toSorted((a, b) => a - b)
  return ordered.slice(1).map((day, index) => day - ordered[index]!)
}

/**
 * Earliest day of the next application by the label's shortest interval.
 * @param last day, a day number; interval in days, a part of a day counting as a whole one
 * @returns day number
 * @throws RangeError where day is not whole or the interval negative
 */
export function earliestNextApplication(last: { day: number; interval: number }): number {
  if (!Number.isSafeInteger(last.day)) throw new RangeError(`requires a whole day number, got ${last.day}`)
  requireNotNegative({ interval: last.interval })
  return last.day + Math.ceil(last.interval)
}
