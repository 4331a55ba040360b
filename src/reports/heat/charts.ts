import { runningSum } from '../../agronomy/weather/running-sum.ts'
import type { DayChart } from '../../facts/charts/day-chart.ts'
import type { IsoDate } from '../../records/date.ts'

/** Degree days of each day, and summed up, from the day named. */
export function heatCharts(
  values: readonly (number | null)[],
  { from, base }: { from: IsoDate; base: number },
): { daily: DayChart; sum: DayChart } {
  const known = values.filter((value) => value !== null)
  const sums = runningSum(values.map((value) => value ?? 0))
  const title = `Heat above ${base} °C`
  const daily: DayChart = {
    title: `${title}, each day`,
    unit: '°C-days',
    from,
    low: 0,
    high: Math.max(1, ...known),
    values: [...values],
    combine: 'mean',
  }
  const sum: DayChart = {
    title: `${title}, total`,
    unit: '°C-days',
    from,
    low: 0,
    high: Math.max(1, sums.at(-1) ?? 0),
    // Where no day is known the sum isn't 0 but unknown.
    values: known.length === 0 ? [...values] : sums,
    combine: 'greatest',
  }
  return { daily, sum }
}
