import { normalQuantile } from '../statistics/normal.ts'
import { studentQuantile } from '../statistics/student.ts'

/**
 * Vines to count for a wanted error of the mean: n = (t x cv / error)², n / (1 + n / vines) in a block of that many, the
 * smallest number that fits Student's t at 95 % for that very number. What other parts of an
 * estimate add (bunch weight, growth factor) leaves less to the count: when it alone exceeds the wanted error, no
 * number of vines is enough.
 * Source: Wolpert & Vilas, Am. J. Enol. Vitic., two-step method (formula from memory).
 *
 * @param options cv, coefficient of variation of the bunches per vine, 0 to 1; error, wanted half-width of the 95 %
 *   interval as a share of the mean; vines in the block; otherError, half-width that the other
 *   parts bring as a share, default 0; counted so far, default 0
 * @returns vines needed in all, and how many more; null where no count is enough
 * @throws RangeError when cv is negative, or error or vines is not above zero
 */
export function vinesToCount(options: {
  cv: number
  error: number
  vines?: number
  otherError?: number
  counted?: number
}): { needed: number; more: number } | null {
  const { cv, error, vines = Number.POSITIVE_INFINITY, otherError = 0, counted = 0 } = options
  if (!(cv >= 0 && Number.isFinite(cv) && error > 0 && vines > 0))
    throw new RangeError('vinesToCount requires a cv of zero or more, and error and vines above zero')
  if (otherError >= error) return null
  const share = error ** 2 - otherError ** 2
  const needs = (quantile: number): number => {
    const endless = (quantile * cv) ** 2 / share
    return endless / (1 + endless / vines)
  }
  let needed = Math.max(2, Math.ceil(needs(normalQuantile(0.975)) - 1e-9))
  while (needed < vines && needs(studentQuantile(0.975, needed - 1)) > needed) needed++
  needed = Math.min(needed, Math.ceil(vines))
  return { needed, more: Math.max(0, needed - counted) }
}
