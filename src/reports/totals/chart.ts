import type { BarChart } from '../../facts/charts/bar-chart.ts'
import type { TotalsData } from './report.ts'

/** Copper of each block against its limits: of the season, and over the years that the limit counts. */
export function copperCharts({ blocks, vineyard }: Pick<TotalsData, 'blocks' | 'vineyard'>): {
  season: BarChart
  rolling: BarChart
} {
  const bars = (of: 'season' | 'rolling', limit: 'limitSeason' | 'limitRolling') =>
    blocks.flatMap(({ name, copper }) => {
      const value = copper[of]
      return value === null ? [] : [{ name, value: value.value, limit: copper[limit]?.value ?? null }]
    })
  const { years, window } = vineyard.copper
  const over =
    years === null || window === null ? 'over years' : `in the ${years} years ${window.from} to ${window.to}`
  return {
    season: { title: 'Copper as metal, this season', unit: 'kg/ha', bars: bars('season', 'limitSeason') },
    rolling: { title: `Copper as metal, ${over}`, unit: 'kg/ha', bars: bars('rolling', 'limitRolling') },
  }
}
