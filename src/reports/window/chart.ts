import type { SpanChart } from '../../facts/charts/span-chart.ts'
import type { BlockWindow } from '../../facts/window/block-window.ts'

/** When each block reaches its target, one below the other; blocks without an interval are left out. */
export function windowChart(blocks: readonly BlockWindow[], nameOf: (block: string) => string): SpanChart {
  return {
    title: 'When each block reaches its target, 90 % interval',
    rows: blocks.flatMap(({ block, earliest, likely, latest }) =>
      earliest && latest ? [{ name: nameOf(block), earliest, likely, latest, strong: true }] : [],
    ),
    marks: [],
  }
}
