import { normalQuantile } from '../statistics/normal.ts'

const NORMAL_95 = normalQuantile(0.975)

/**
 * Share of the units looked at that show symptoms, with its 95 % Wilson score interval, without continuity correction;
 * all shares from 0 to 1; null where none was looked at. Units are taken as independent, which leaves of one vine are not.
 * Source: Wilson 1927; Newcombe 1998, Statistics in Medicine 17:857-872, method 3.
 * Throws a RangeError unless 0 <= affected <= looked.
 */
export function incidence(affected: number, looked: number) {
  if (!(affected >= 0 && affected <= looked && Number.isFinite(looked)))
    throw new RangeError(`incidence requires 0 <= affected <= looked at, got ${affected} of ${looked}`)
  if (looked === 0) return null
  const share = affected / looked
  const spread = NORMAL_95 ** 2 / looked
  const centre = (share + spread / 2) / (1 + spread)
  const half = (NORMAL_95 / (1 + spread)) * Math.sqrt((share * (1 - share)) / looked + spread / (4 * looked))
  const low = affected === 0 ? 0 : Math.max(0, centre - half)
  const high = affected === looked ? 1 : Math.min(1, centre + half)
  return { incidence: share, low, high }
}
