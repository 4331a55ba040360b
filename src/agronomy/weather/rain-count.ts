export interface RainPeriod {
  /** Hour numbers (hours since 1970-01-01 local), `to` not included: an hour, or a day of 24. */
  from: number
  to: number
  /** mm; null unknown. */
  rain: number | null
}
export interface RainMoment {
  /** Hour number. */
  at: number
  /** False where the deciding rain may have fallen before the end of the spray, or after it was dry. */
  certain: boolean
}
interface RainCount {
  /** mm of the known periods that overlap the time counted. */
  sum: number
  missing: { from: number; to: number }[]
  beforeDry: RainMoment | null
  washedOff: RainMoment | null
}

/**
 * Adds up rain from `sprayed` to `asOf` (hour numbers) and finds the first rain within `rainFastHours` and the
 * moment when the sum reaches `washOff` mm. A period that began before `sprayed` counts in full, and rain takes
 * effect from its period's start, both cautious. Time that no period covers is missing.
 * Throws a RangeError for periods that overlap or run backwards, or negative rain.
 */
export function countRain(
  spray: { sprayed: number; asOf: number; rainFastHours?: number | null; washOff?: number | null },
  periods: readonly RainPeriod[],
): RainCount {
  const { sprayed, asOf } = spray
  const dryAt = sprayed + (spray.rainFastHours ?? 0)
  const washOff = spray.washOff ?? Number.POSITIVE_INFINITY
  const count: RainCount = { sum: 0, missing: [], beforeDry: null, washedOff: null }
  let known = sprayed
  let unsure = 0
  let end = Number.NEGATIVE_INFINITY
  for (const { from, to, rain } of periods) {
    if (!(to > from && from >= end && (rain ?? 0) >= 0))
      throw new RangeError('countRain requires periods in order, without overlap, with rain of 0 or more')
    end = to
    if (to <= sprayed || from >= asOf) continue
    const at = Math.max(from, sprayed)
    if (at > known) count.missing.push({ from: known, to: at })
    known = to
    if (rain === null) count.missing.push({ from: at, to: Math.min(to, asOf) })
    if (rain === null || rain === 0) continue
    count.sum += rain
    if (from < sprayed) unsure += rain
    if (at < dryAt) count.beforeDry ??= { at, certain: from >= sprayed && to <= dryAt }
    if (count.sum >= washOff - 1e-9) count.washedOff ??= { at, certain: count.sum - unsure >= washOff - 1e-9 }
  }
  if (known < asOf) count.missing.push({ from: known, to: asOf })
  return count
}
