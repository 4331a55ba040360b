import type { CourseChart, CoursePanel } from '../../facts/charts/course-chart.ts'
import { type SpanChart, windowChart } from '../../facts/charts/span-chart.ts'
import type { BlockWindow } from '../../facts/window/block-window.ts'

/** Days of the chance that are drawn at most, and the chance at which the drawing ends. */
const MOST_DAYS = 75
const DRAWN_TO = 0.99

/** When each block reaches its target, one below the other. */
export const allWindows = (blocks: readonly BlockWindow[], nameOf: (block: string) => string): SpanChart =>
  windowChart(
    'When each block reaches its target, 9 times in 10',
    blocks.map((window) => ({ ...window, name: nameOf(window.block) })),
  )

/** The samples with the chance under them that the target is reached; null where nothing was measured. */
export function withChance(
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
