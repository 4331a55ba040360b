import { downyIncubationDays, type IncubationHumidity } from './downy-incubation-days.ts'

interface DownyIncubation {
  /** Oil spots are due between the ends of the two. */
  earliest: IncubationCourse
  latest: IncubationCourse
  /** Steps up to the latest end, or to the data's, without a temperature: they count no progress. */
  missing: number
  /** Steps outside 10-28 °C. */
  outside: number
}
interface IncubationCourse {
  /** Share of incubation done after each step, up to the step in which it is done. */
  progress: number[]
  /** Position of the step in which incubation is done; null where it isn't yet. */
  doneAt: number | null
}

/**
 * Incubation of downy mildew from an infection on, through temperatures in °C, one each step, of which a day has
 * `perDay`: 24 for hours, 1 for daily means. Each step adds 1 / (perDay x days of incubation at its temperature).
 * `earliest` follows the high-humidity equation, `latest` the low-humidity one, so that oil spots are due between
 * them. Outside 10-28 °C the equations aren't extrapolated: `earliest` goes on at the pace of the nearer limit,
 * `latest` stands still. A missing step adds nothing: the spots may come sooner.
 * Source as in `downyIncubationDays`.
 */
export function downyIncubation(
  temperatures: readonly (number | null)[],
  perDay: 24 | 1 = 24,
): DownyIncubation {
  const earliest = course(temperatures, (temperature) => {
    const held = Math.min(28, Math.max(10, temperature))
    return pace(held, 'high') / perDay
  })
  const latest = course(temperatures, (temperature) => pace(temperature, 'low') / perDay)
  let missing = 0
  let outside = 0
  for (let at = 0; at <= (latest.doneAt ?? temperatures.length - 1); at++) {
    const temperature = temperatures[at] ?? null
    if (temperature === null) missing++
    else if (downyIncubationDays(temperature, 'low') === null) outside++
  }
  return { earliest, latest, missing, outside }
}

function pace(temperature: number, humidity: IncubationHumidity): number {
  const days = downyIncubationDays(temperature, humidity)
  return days === null ? 0 : 1 / days
}

function course(
  temperatures: readonly (number | null)[],
  step: (temperature: number) => number,
): IncubationCourse {
  const progress: number[] = []
  let sum = 0
  for (let at = 0; at < temperatures.length; at++) {
    const temperature = temperatures[at] ?? null
    if (temperature !== null) sum += step(temperature)
    progress.push(sum)
    // Rounding of many small steps must not put the end off by a step.
    if (sum >= 1 - 1e-9) return { progress, doneAt: at }
  }
  return { progress, doneAt: null }
}
