import type { CourseChart, CoursePanel } from '../../facts/charts/course-chart.ts'
import { type SpanChart, windowChart } from '../../facts/charts/span-chart.ts'
import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { blockChart } from '../../facts/ripeness/chart.ts'
import { type BlockWindow, type WindowOptions, windowOf } from '../../facts/window/block-window.ts'
import { type LastSprays, lastSprays } from '../../facts/window/last-sprays.ts'
import { type PastDates, pastDates } from '../../facts/window/past.ts'
import { type Backtest, backtest } from './backtest.ts'

/** Days of the chance that are drawn at most, and the chance at which the drawing ends. */
const MOST_DAYS = 75
const DRAWN_TO = 0.99

/** A block's window, with what was measured drawn above its chance; the chart is null where nothing was measured. */
export interface WindowBlock extends BlockWindow {
  /** What may still be sprayed today; null where the window has opened or is far off or unknown. */
  lastSprays: LastSprays | null
  chart: CourseChart | null
  /** How earlier seasons of the block went, newest first. */
  past: PastDates[]
}

export interface WindowData {
  blocks: WindowBlock[]
  backtest?: Backtest
}

/** When each block's mean sugar reaches the low end of its target range: the chance day by day. */
export function window(
  input: ReportInput,
  options: WindowOptions & { backtest?: boolean } = {},
): Report<WindowData> {
  const blocks = input.blocks.map((block) => {
    // A copy, since a window is calculated each time it is asked.
    const found = { ...windowOf(block, input, { ...options, expected: true }) }
    const title = `${block.name}: samples, and when ${found.target ?? 'the target'} Brix is reached`
    return {
      ...found,
      // No spray may depend on a window from the calendar.
      lastSprays: found.lastSample || found.veraison ? lastSprays(found.earliest, input) : null,
      chart: withChance(blockChart(block, input, { title, window: found }), found),
      past:
        found.target === null
          ? []
          : pastDates(input.ledger, { block: block.id, season: input.season, target: found.target }),
    }
  })
  const data = options.backtest ? { blocks, backtest: backtest(input, options.target) } : { blocks }
  return makeReport('window', input, { data, cautions: [CAUTION.clearance, CAUTION.estimate] })
}

/** The samples with the chance under them that the target is reached; null where nothing was measured. */
function withChance(
  chart: CourseChart | null,
  { chance, target }: Pick<BlockWindow, 'chance' | 'target'>,
): CourseChart | null {
  if (!chart || chance.length === 0) return chart
  const end = chance.findIndex(({ share }) => share >= DRAWN_TO)
  const drawn = chance.slice(0, Math.min(MOST_DAYS, end < 0 ? chance.length : end + 1))
  const [first, last] = [drawn[0]!.date, drawn.at(-1)!.date]
  const panel: CoursePanel = {
    name: `Chance of ${target} Brix`,
    unit: '%',
    points: [],
    curve: drawn.map(({ date, share }) => ({ date, value: Math.round(100 * share), low: null, high: null })),
  }
  return {
    ...chart,
    from: first < chart.from ? first : chart.from,
    to: last > chart.to ? last : chart.to,
    panels: [...chart.panels, panel],
  }
}

/** When each block reaches its target, one below the other. */
export const allWindows = (blocks: readonly WindowBlock[], nameOf: (block: string) => string): SpanChart =>
  windowChart(
    'When each block reaches its target, 9 times in 10',
    blocks.map((window) => ({ ...window, name: nameOf(window.block) })),
  )
