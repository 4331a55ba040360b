/** The lowest and highest temperature of a day, °C. */
export interface Ends {
  min: number
  max: number
}

/** Longest station outage to fill, in days. Our own choice, as is the straight line. */
const LONGEST_OUTAGE = 3

/** Fills short outages by straight lines between the days around them; longer ones stay unknown. */
export function fillShortOutages(days: readonly (Ends | null)[]): (Ends | null)[] {
  const filled: (Ends | null)[] = [...days]
  for (let at = 0; at < days.length; at++) {
    if (days[at] !== null) continue
    const next = days.slice(at).findIndex((one) => one !== null)
    const length = next < 0 ? days.length - at : next
    const before = filled[at - 1]
    const after = days[at + length]
    if (before && after && length <= LONGEST_OUTAGE)
      for (let step = 1; step <= length; step++) {
        const share = step / (length + 1)
        filled[at + step - 1] = {
          min: before.min + (after.min - before.min) * share,
          max: before.max + (after.max - before.max) * share,
        }
      }
    at += length - 1
  }
  return filled
}

/** The same, or null where a day stays unknown. */
export function fillOutages(days: readonly (Ends | null)[]): Ends[] | null {
  const filled = fillShortOutages(days)
  return filled.every((day) => day !== null) ? filled : null
}
