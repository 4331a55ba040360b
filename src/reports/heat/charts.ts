import { highest } from '../../agronomy/statistics/extremes.ts'
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
  const frame = (of: string, high: number) => ({
    title: `Heat above ${base} °C, ${of}`,
    unit: '°C-days',
    from,
    low: 0,
    high: Math.max(1, high),
  })
  return {
    daily: { ...frame('each day', highest(known)), values: [...values], combine: 'mean' },
    sum: {
      ...frame('total', sums.at(-1) ?? 0),
      // Where no day is known the sum isn't 0 but unknown.
      values: known.length === 0 ? [...values] : sums,
      combine: 'greatest',
    },
  }
}
