import { fitLine } from '../statistics/regression.ts'

/** How much warmer the last three days were than usual for the season, °C, by day number; undefined where unknown. */
export type Warmth = (day: number) => number | undefined

/**
 * Days of the season's own course that say what is usual, and how many of them have to be known. Our choice, no source.
 */
const USUAL_DAYS = 46
const LEAST_DAYS = 21

/**
 * Warmth of days against the season's own course: a straight line through the daily means of the last weeks. A warm
 * year thus lies in the season's rate and the fall of autumn in its slowing; what is left are its warm and cold spells.
 *
 * @param means daily means, °C, by day number; those foretold too
 * @param today the last day that was measured: the line goes by the weeks up to it
 * @returns undefined for every day where too few days are known
 */
export function warmthOf(means: ReadonlyMap<number, number>, today: number): Warmth {
  const points: { x: number; y: number }[] = []
  for (let day = today - USUAL_DAYS + 1; day <= today; day++) {
    const mean = means.get(day)
    if (mean !== undefined) points.push({ x: day, y: mean })
  }
  if (points.length < LEAST_DAYS) return () => undefined
  const { slope, intercept } = fitLine(points)
  return (day) => {
    const known = [day - 2, day - 1, day].flatMap((each) => means.get(each) ?? [])
    if (known.length === 0) return undefined
    return known.reduce((sum, mean) => sum + mean, 0) / known.length - (intercept + slope * (day - 1))
  }
}

/** Warmth where no temperature is known. */
export const NO_WARMTH: Warmth = () => undefined
