import { downyIncubationDays, type IncubationHumidity } from './downy-incubation-days.ts'

/**
 * Incubation of downy mildew from an infection on, through temperatures in °C, one each step, of which a day has
 * `perDay`: 24 for hours, 1 for daily means. Each step adds 1 / (perDay x days of incubation at its temperature).
 * `earliest` follows the high-humidity equation, `latest` the low-humidity one, so that oil spots are due between
 * them. Outside 10-28 °C the equations aren't extrapolated: `earliest` goes on at the pace of the nearer limit,
 * `latest` stands still. A missing step adds nothing: the spots may come sooner.
 * Source as in `downyIncubationDays`.
 */
export function downyIncubation(temperatures: readonly (number | null)[], perDay: 24 | 1) {
  const earliest = course(
    temperatures,
    (temperature) => pace(Math.min(28, Math.max(10, temperature)), 'high') / perDay,
  )
  const latest = course(temperatures, (temperature) => pace(temperature, 'low') / perDay)
  const counted = temperatures.slice(0, (latest.doneAt ?? Infinity) + 1)
  const known = counted.filter((one) => one !== null)
  return {
    /** Oil spots are due between the ends of the two. */
    earliest,
    latest,
    /** Steps up to the latest end, or to the data's, without a temperature: they count no progress. */
    missing: counted.length - known.length,
    /** Steps outside 10-28 °C. */
    outside: known.filter((one) => downyIncubationDays(one, 'low') === null).length,
  }
}

function pace(temperature: number, humidity: IncubationHumidity): number {
  const days = downyIncubationDays(temperature, humidity)
  return days === null ? 0 : 1 / days
}

/**
 * The share of incubation done after each step, up to the step in which it is done, and the position of that step; null
 * where it isn't done yet.
 */
function course(temperatures: readonly (number | null)[], step: (temperature: number) => number) {
  const progress: number[] = []
  let sum = 0
  for (const temperature of temperatures) {
    if (temperature !== null) sum += step(temperature)
    progress.push(sum)
    // Rounding of many small steps must not put the end off by a step.
    if (sum >= 1 - 1e-9) return { progress, doneAt: progress.length - 1 }
  }
  return { progress, doneAt: null }
}
