interface Ends {
  min: number
  max: number
}

/** Longest outage of a station, in days, that is filled. Our own choice, as is the straight line. */
const LONGEST_OUTAGE = 3

/** The days with short outages filled in straight lines between the days around them; null where more is unknown. */
export function fillOutages(days: readonly (Ends | null)[]): Ends[] | null {
  const filled: Ends[] = []
  for (let at = 0; at < days.length; at++) {
    const day = days[at]
    if (day) {
      filled.push(day)
      continue
    }
    const before = filled.at(-1)
    const length = days.slice(at).findIndex((one) => one !== null)
    const after = days[at + length]
    if (!before || length < 0 || length > LONGEST_OUTAGE || !after) return null
    for (let step = 1; step <= length; step++) {
      const share = step / (length + 1)
      filled.push({
        min: before.min + (after.min - before.min) * share,
        max: before.max + (after.max - before.max) * share,
      })
    }
    at += length - 1
  }
  return filled
}
