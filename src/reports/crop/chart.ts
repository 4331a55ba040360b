import type { BarChart } from '../../facts/charts/bar-chart.ts'
import type { CropBlock } from './describe.ts'

/** The crop that each block is expected to give, with its interval. */
export function cropChart(
  blocks: readonly Pick<CropBlock, 'block' | 'estimate' | 'low' | 'high'>[],
  nameOf: (block: string) => string,
): BarChart {
  return {
    title: 'Crop expected',
    unit: 'kg',
    bars: blocks.flatMap(({ block, estimate, low, high }) =>
      estimate === null
        ? []
        : { name: nameOf(block), value: estimate.value, low: low?.value ?? null, high: high?.value ?? null },
    ),
  }
}
