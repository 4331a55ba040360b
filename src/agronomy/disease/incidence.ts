import { normalQuantile } from '../statistics/normal.ts'

/** The intervals that every scouting round is given. */
const LEVEL = 0.95
const NORMAL = normalQuantile(0.5 + LEVEL / 2)

interface Incidence {
  /** Shares, 0 to 1. */
  incidence: number
  low: number
  high: number
}

/**
 * Share of the units looked at that show symptoms, with its Wilson score interval, without continuity correction;
 * null where none was looked at. Units are taken as independent, which leaves of one vine are not.
 * Source: Wilson 1927; Newcombe 1998, Statistics in Medicine 17:857-872, method 3.
 * Throws a RangeError unless 0 <= affected <= looked and 0 < level < 1.
 */
export function incidence(affected: number, looked: number, { level = LEVEL } = {}): Incidence | null {
  if (!(affected >= 0 && affected <= looked && Number.isFinite(looked)))
    throw new RangeError(`incidence requires 0 <= affected <= looked at, got ${affected} of ${looked}`)
  if (looked === 0) return null
  const share = affected / looked
  const z = level === LEVEL ? NORMAL : normalQuantile(0.5 + level / 2)
  const spread = z ** 2 / looked
  const centre = (share + spread / 2) / (1 + spread)
  const half = (z / (1 + spread)) * Math.sqrt((share * (1 - share)) / looked + spread / (4 * looked))
  const low = affected === 0 ? 0 : Math.max(0, centre - half)
  const high = affected === looked ? 1 : Math.min(1, centre + half)
  return { incidence: share, low, high }
}
