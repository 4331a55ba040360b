import type { BarChart } from '../facts/charts/bar-chart.ts'
import type { DayChart } from '../facts/charts/day-chart.ts'
import { heatIn, heatUnit, inLedgerUnits } from '../facts/ledger-units.ts'
import { convert } from '../records/units.ts'
import type { Style } from './style.ts'

/** A chart of degree-days in the units of the ledger; any other chart as it is. */
export function chartIn(chart: DayChart, units: Style['units']): DayChart {
  if (units === 'metric' || chart.unit !== heatUnit('metric')) return chart
  const all = (values: readonly (number | null)[]) =>
    values.map((value) => (value === null ? null : heatIn(value, units)))
  const { beside } = chart
  return {
    ...chart,
    title: inLedgerUnits(chart.title, units),
    unit: heatUnit(units),
    high: heatIn(chart.high, units),
    values: all(chart.values),
    ...(beside && {
      beside: {
        ...beside,
        values: all(beside.values),
        lowest: all(beside.lowest),
        highest: all(beside.highest),
      },
    }),
  }
}

const BAR_UNITS: Readonly<Record<string, string>> = { kg: 'lb', 'kg/ha': 'lb/acre' }

/** A chart of weights in the units of the ledger; any other chart as it is. */
export function barsIn(chart: BarChart, units: Style['units']): BarChart {
  const own = units === 'metric' ? undefined : BAR_UNITS[chart.unit]
  if (own === undefined) return chart
  const maybe = (value: number | null | undefined) => (value == null ? null : convert(value, chart.unit, own))
  const bars = chart.bars.map(({ name, value, low, high, limit }) => ({
    name,
    value: convert(value, chart.unit, own),
    low: maybe(low),
    high: maybe(high),
    limit: maybe(limit),
  }))
  return { ...chart, unit: own, bars }
}
