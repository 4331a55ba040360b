/** How many units were seen in a class; `midpoint` is the share of the unit's surface, 0 to 1. */
interface SeverityClass {
  midpoint: number
  count: number
}

/**
 * Severity from class counts; null where nothing was looked at. The mean over all units can't exceed incidence.
 * Source: the usual means of class midpoints; "severity is the average of the surface scores": Wine Australia (read).
 * Throws a RangeError for a midpoint outside 0 to 1 or a count below 0.
 */
export function severity(classes: readonly SeverityClass[]) {
  let looked = 0
  let affected = 0
  let sum = 0
  for (const { midpoint, count } of classes) {
    if (!(midpoint >= 0 && midpoint <= 1))
      throw new RangeError(`severity requires midpoints of 0 to 1, got ${midpoint}`)
    if (!(count >= 0 && Number.isFinite(count)))
      throw new RangeError(`severity requires counts of 0 or more, got ${count}`)
    looked += count
    if (midpoint > 0) affected += count
    sum += midpoint * count
  }
  if (looked === 0) return null
  return {
    looked,
    affected,
    /** Share affected, 0 to 1. */
    incidence: affected / looked,
    /** Mean share of surface over ALL units, the healthy ones counting as 0. */
    severity: sum / looked,
    /** Mean share of surface over the affected units only; null where there is none. */
    severityAffected: affected === 0 ? null : sum / affected,
  }
}
