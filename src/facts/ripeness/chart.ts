import type { Named } from '../../ledger/read/ledger.ts'
import { addDays, daysBetween, type IsoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { CourseChart, CoursePanel } from '../charts/course-chart.ts'
import type { ReportInput } from '../report.ts'
import { samplesOf } from './samples.ts'
import { targetOf } from './targets.ts'
import { trendOf } from './trend.ts'

/** Most days after the last sample to draw; a window may end later. */
const MOST_AHEAD = 45

interface Drawn {
  title: string
  /** When the sugar is expected to reach its target, and from when sprays allow picking. */
  window?: Record<'earliest' | 'likely' | 'latest' | 'legalFrom', IsoDate | null> | undefined
}

/**
 * Sugar, acid and pH of one block against time with rates and targets, and the window where one is given; null where
 * nothing was measured.
 */
export function blockChart(
  block: Named<Block>,
  { ledger, season, asOf }: Omit<ReportInput, 'blocks'>,
  { title, window }: Drawn,
): CourseChart | null {
  const samples = samplesOf(ledger, { block: block.id, season, asOf }).filter(
    ({ facts }) => facts.brix ?? facts.ta ?? facts.ph,
  )
  const [first, last] = [samples[0]?.entry.date, samples.at(-1)?.entry.date]
  if (first === undefined || last === undefined) return null
  const trend = trendOf(block.id, samples)
  const panel = (of: 'brix' | 'ta' | 'ph', name: string, unit: string): CoursePanel => {
    const { course } = of === 'brix' ? trend : trend[of]
    return {
      name,
      unit,
      points: samples.flatMap(({ entry: { date }, facts }) => {
        const interval = of === 'brix' ? facts.brix : null
        const value = facts[of]?.mean
        return value === undefined
          ? []
          : { date, value, low: interval?.low ?? null, high: interval?.high ?? null }
      }),
      target: targetOf(ledger, block, of) ?? undefined,
      trend: course.length > 1 ? { name: 'rate, 95 % interval of the mean', points: course } : undefined,
    }
  }
  const panels = [
    panel('brix', 'Sugar', 'Brix'),
    panel('ta', 'Acid as tartaric', 'g/L'),
    panel('ph', 'pH', ''),
  ]
  const span = { first, limit: addDays(last, MOST_AHEAD) }
  const from = window?.legalFrom
  const marks =
    from && from >= first && from <= span.limit ? [{ date: from, label: 'may be picked from' }] : []
  const spread = spreadOf(window, span)
  const end = [last, spread?.latest ?? last, ...marks.map(({ date }) => date)].sort().at(-1)!
  const room = Math.max(1, Math.round(daysBetween(first, end) / 40))
  return {
    title,
    from: addDays(first, -room),
    to: addDays(end, room),
    panels: panels.filter(({ points }) => points.length > 0),
    window: spread,
    marks,
  }
}

/** The window, where it fits the chart; none where it is too far off or has no end. */
function spreadOf(
  window: Drawn['window'],
  { first, limit }: { first: IsoDate; limit: IsoDate },
): CourseChart['window'] {
  if (!window?.earliest || !window.likely || !window.latest) return undefined
  const { earliest, likely, latest } = window
  if (earliest < first || latest > limit) return undefined
  return { name: 'target reached, 90 % interval', earliest, likely, latest }
}
