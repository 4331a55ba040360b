import { dayOf, isoDate } from '../../records/date.ts'
import type { CourseChart, CoursePoint } from '../charts/course-chart.ts'
import type { ReportInput } from '../report.ts'
import type { BlockWindow, WindowOptions } from './block-window.ts'
import { futureYears, heatSumOf } from './heat-ahead.ts'
import { temperaturesOf } from './temperatures.ts'

/** Days from one point of the past to the next, and of what is foreseen. */
const PAST_STEP = 7
const AHEAD_STEP = 3
/** Days of the past that are drawn. */
const MOST_PAST = 63
/** Days drawn after the requirement is likely met, so that its spread is seen; and days ahead at most. */
const AFTER = 14
const MOST_AHEAD = 75

/**
 * The season's heat against what the target needs: the sum so far, and its course by earlier seasons, in the mean and
 * from the coolest to the warmest; null where the sum or the requirement isn't known.
 */
export function heatChart(
  found: BlockWindow,
  input: Omit<ReportInput, 'blocks'>,
  { name, forecast }: { name: string } & Pick<WindowOptions, 'forecast'>,
): CourseChart | null {
  const { needed } = found.heat
  const temperatures = temperaturesOf(input.ledger, { ...input, forecast })
  const { known, start } = temperatures
  if (needed === null || known.size === 0) return null
  const today = Math.min(dayOf(input.asOf), Math.max(...known.keys()))
  const first = Math.max(start + PAST_STEP - 1, today - MOST_PAST)
  const sumAt = (day: number) => heatSumOf(known, start, day)?.sum ?? null
  const past = steps(first, today, PAST_STEP).flatMap((day): CoursePoint[] => {
    const value = sumAt(day)
    return value === null ? [] : [{ date: isoDate(day), value, low: null, high: null }]
  })
  const sum = sumAt(today)
  if (past.length === 0 || sum === null) return null
  const method = found.methods.find((one) => one.method === 'heat-sum')
  const ahead = foreseen(futureYears(temperatures, today), { sum, today, needed })
  const ends = [isoDate(today), ahead.at(-1)?.date, method?.latest ?? undefined].filter(
    (date) => date !== undefined,
  )
  return {
    title: `${name}: heat above 0 °C, and what ${found.target} Brix needs`,
    from: isoDate(first),
    to: ends.sort().at(-1)!,
    panels: [
      {
        ...{ name: 'Heat sum', unit: '°C-days', points: past },
        ...{ limit: needed, limitName: `needed for ${found.target} Brix` },
        trend:
          ahead.length > 1 ? { name: 'by earlier seasons, coolest to warmest', points: ahead } : undefined,
      },
    ],
    window:
      method?.earliest && method.likely && method.latest
        ? {
            name: 'needed sum reached, 90 % interval',
            ...{ earliest: method.earliest, likely: method.likely, latest: method.latest },
          }
        : undefined,
  }
}

/** Days from one to another in steps, the last always among them. */
function steps(from: number, to: number, step: number): number[] {
  const days: number[] = []
  for (let day = from; day < to; day += step) days.push(day)
  return to >= from ? [...days, to] : []
}

function foreseen(
  years: readonly (readonly (number | null)[])[],
  { sum, today, needed }: { sum: number; today: number; needed: number },
): CoursePoint[] {
  if (years.length === 0) return []
  const length = Math.min(MOST_AHEAD, ...years.map((year) => year.length))
  const sums = years.map(() => sum)
  const points: CoursePoint[] = [{ date: isoDate(today), value: sum, low: sum, high: sum }]
  let left = AFTER
  for (let day = 0; day < length && left > 0; day++) {
    const means = years.flatMap((year) => year[day] ?? [])
    if (means.length === 0) break
    const usual = means.reduce((total, mean) => total + mean, 0) / means.length
    years.forEach((year, index) => {
      sums[index] = sums[index]! + Math.max(0, year[day] ?? usual)
    })
    const value = sums.reduce((total, one) => total + one, 0) / sums.length
    if (value >= needed) left--
    if ((day + 1) % AHEAD_STEP === 0 || left === 0)
      points.push({
        ...{ date: isoDate(today + day + 1), value },
        ...{ low: Math.min(...sums), high: Math.max(...sums) },
      })
  }
  return points
}
