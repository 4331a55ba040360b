import { heatIn, heatUnit, inBookUnits } from '../facts/book-units.ts'
import type { DayChart } from '../facts/charts/day-chart.ts'
import type { Style } from './style.ts'

/** A chart of degree-days in the units of the book; any other chart as it is. */
export function chartIn(chart: DayChart, units: Style['units']): DayChart {
  if (units === 'metric' || chart.unit !== heatUnit('metric')) return chart
  const all = (values: readonly (number | null)[]) =>
    values.map((value) => (value === null ? null : heatIn(value, units)))
  const { beside } = chart
  return {
    ...chart,
    title: inBookUnits(chart.title, units),
    unit: heatUnit(units),
    high: heatIn(chart.high, units),
    values: all(chart.values),
    ...(beside && {
      beside: {
        name: beside.name,
        values: all(beside.values),
        lowest: all(beside.lowest),
        highest: all(beside.highest),
      },
    }),
  }
}
