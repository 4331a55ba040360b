import { type Backtest, backtest } from './backtest.ts'
import { ESTIMATE_CAUTIONS } from './cautions.ts'
import { makeReport, type Report, type ReportInput } from './report.ts'
import { type BlockWindow, type WindowOptions, windowOf } from './window/block-window.ts'

export interface WindowData {
  blocks: BlockWindow[]
  backtest?: Backtest
}

/** When each block's mean sugar reaches the low end of its target range, by three methods and by all of them. */
export function window(
  input: ReportInput,
  options: WindowOptions & { backtest?: boolean } = {},
): Report<WindowData> {
  const blocks = input.blocks.map((block) => windowOf(block, input, options))
  const data = options.backtest ? { blocks, backtest: backtest(input, options.target) } : { blocks }
  return makeReport('window', input, { data, cautions: ESTIMATE_CAUTIONS })
}
