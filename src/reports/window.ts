import type { Named } from '../ledger/ledger.ts'
import type { Block } from '../records/block.ts'
import { ESTIMATE_CAUTIONS } from './cautions.ts'
import type { CourseChart } from './charts/course-chart.ts'
import { ripeningChart } from './charts/ripening-chart.ts'
import { makeReport, type Report, type ReportInput } from './report.ts'
import { samplesOf } from './ripeness/samples.ts'
import { targetOf } from './ripeness/targets.ts'
import { type Backtest, backtest } from './window/backtest.ts'
import { type BlockWindow, type WindowOptions, windowOf } from './window/block-window.ts'

export interface WindowData {
  /** Each block's window, with what was measured drawn beside it; the chart is null where nothing was. */
  blocks: (BlockWindow & { chart: CourseChart | null })[]
  backtest?: Backtest
}

/** When each block's mean sugar reaches the low end of its target range, by three methods and by all of them. */
export function window(
  input: ReportInput,
  options: WindowOptions & { backtest?: boolean } = {},
): Report<WindowData> {
  const blocks = input.blocks.map((block) => {
    const found = windowOf(block, input, options)
    return { ...found, chart: chartOf(block, found, input) }
  })
  const data = options.backtest ? { blocks, backtest: backtest(input, options.target) } : { blocks }
  return makeReport('window', input, { data, cautions: ESTIMATE_CAUTIONS })
}

function chartOf(
  block: Named<Block>,
  found: BlockWindow,
  { ledger, season, asOf }: ReportInput,
): CourseChart | null {
  const samples = samplesOf(ledger, { block: block.id, season, asOf })
  return ripeningChart({
    title: `${block.name}: samples, and when ${found.target ?? 'the target'} Brix is reached`,
    points: samples.map(({ entry, facts }) => ({
      date: entry.date,
      brix: facts.brix?.mean ?? null,
      brixLow: facts.brix?.low ?? null,
      brixHigh: facts.brix?.high ?? null,
      ta: facts.ta?.mean ?? null,
      ph: facts.ph?.mean ?? null,
    })),
    targets: {
      brix: targetOf(ledger, block, 'brix'),
      ta: targetOf(ledger, block, 'ta'),
      ph: targetOf(ledger, block, 'ph'),
    },
    window: found,
    legalFrom: found.legalFrom,
  })
}
