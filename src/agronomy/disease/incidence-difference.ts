import { incidence } from './incidence.ts'

interface Walk {
  affected: number
  looked: number
}

/**
 * How far incidence changed from one scouting round to the next, and whether by more than chance; null where either round
 * looked at nothing. Hybrid score interval for the difference of two independent shares.
 * Source: Newcombe 1998, Statistics in Medicine 17:873-890, method 10.
 */
export function incidenceDifference(then: Walk, now: Walk) {
  const before = incidence(then.affected, then.looked)
  const after = incidence(now.affected, now.looked)
  if (!before || !after) return null
  const change = after.incidence - before.incidence
  const low = change - Math.hypot(after.incidence - after.low, before.high - before.incidence)
  const high = change + Math.hypot(after.high - after.incidence, before.incidence - before.low)
  return {
    /** Share now less share then, -1 to 1, with its interval. */
    change,
    low,
    high,
    /** True where the interval leaves zero out. */
    beyondChance: low > 0 || high < 0,
  }
}
