import { highest, lowest } from '../statistics/extremes.ts'
import { type DayOfHours, daysOfHours, type EveryHour, longestRun } from '../weather/weather-hours.ts'
import { type PowderyState, powderyStep } from './powdery-step.ts'

const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9
const SLACK = 1e-9
const LOWEST = celsius(70) - SLACK
const HIGHEST = celsius(85) + SLACK
const HOT = celsius(95) - SLACK

/**
 * The powdery mildew temperature index day by day, rules and source as in `powderyStep`.
 * Limits are exact: 70 °F, 85 °F (both included) and 95 °F. With hourly means, six continuous hours are six
 * neighbouring hours in range, and a hot day has an hour at or above 35.0 °C, since 15 minutes can't be seen.
 * A run is split at midnight. Days before `startDay` aren't counted: it should lie after budbreak and, by the reprint,
 * after mildew was found.
 */
export function powderyIndex(hours: EveryHour, startDay = Number.NEGATIVE_INFINITY) {
  let state: PowderyState = { index: 0, phase: 'start' }
  let possible = [state]
  return daysOfHours(hours).flatMap((day) => {
    if (day.day < startDay) return []
    const seen = readDay(hours, day)
    const before = state
    state = powderyStep(before, seen)
    possible = possible.length === 1 && seen.missingHours === 0 ? [state] : nextStates(possible, seen)
    const indices = possible.map(({ index }) => index)
    const low = lowest(indices)
    const high = highest(indices)
    const { hoursInRange, missingHours } = seen
    const change = state.index - before.index
    const { phase } = before
    const complete = low === high
    return {
      day: day.day,
      index: state.index,
      /** Points since the day before, after the caps of 0 and 100. */
      change,
      /** Longest unbroken run of hours in range on this calendar day; a missing hour breaks it. */
      hoursInRange,
      /** The phase by whose rules this day was counted. */
      phase,
      /** False where missing hours, of this day or an earlier one, could have changed the index. */
      complete,
      /** Least and greatest index that the missing hours allow. */
      low,
      high,
      missingHours,
    }
  })
}

type SeenDay = ReturnType<typeof readDay>

function readDay(hours: EveryHour, { first, last }: DayOfHours) {
  const inRange = (at: number) => {
    const temperature = hours[at]!.temperature
    return temperature !== null && temperature >= LOWEST && temperature <= HIGHEST
  }
  const missing = (at: number) => hours[at]!.temperature === null
  let hot = false
  let missingHours = 0
  for (let at = first; at <= last; at++) {
    if (missing(at)) missingHours++
    else if (hours[at]!.temperature! >= HOT) hot = true
  }
  const hoursInRange = longestRun(first, last, inRange)
  const mostHours =
    missingHours > 0 ? longestRun(first, last, (at) => missing(at) || inRange(at)) : hoursInRange
  return { hoursInRange, mostHours, hot, missingHours }
}

/** Every state that some filling of the missing hours could lead to. */
function nextStates(possible: PowderyState[], seen: SeenDay): PowderyState[] {
  const next = new Map<string, PowderyState>()
  for (const before of possible)
    for (const hoursInRange of new Set([seen.hoursInRange, seen.mostHours]))
      for (const hot of new Set([seen.hot, seen.hot || seen.missingHours > 0])) {
        const state = powderyStep(before, { hoursInRange, hot })
        next.set(`${state.phase} ${state.index}`, state)
      }
  return [...next.values()]
}
