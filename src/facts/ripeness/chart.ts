import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { CourseChart } from '../charts/course-chart.ts'
import type { ReportInput } from '../report.ts'
import { type RipeningInput, ripeningChart } from './ripening-chart.ts'
import { samplesOf } from './samples.ts'
import { targetOf } from './targets.ts'
import { trendOf } from './trend.ts'

/** Samples of a block with their rates and targets, and the window where one is given; null where nothing was measured. */
export function blockChart(
  block: Named<Block>,
  { ledger, season, asOf }: Omit<ReportInput, 'blocks'>,
  given: Pick<RipeningInput, 'title' | 'window' | 'legalFrom'>,
): CourseChart | null {
  const samples = samplesOf(ledger, { block: block.id, season, asOf })
  const trend = trendOf(block.id, samples)
  return ripeningChart({
    ...given,
    points: samples.map(({ entry, facts }) => ({
      date: entry.date,
      brix: facts.brix?.mean ?? null,
      brixLow: facts.brix?.low ?? null,
      brixHigh: facts.brix?.high ?? null,
      ta: facts.ta?.mean ?? null,
      ph: facts.ph?.mean ?? null,
    })),
    trends: { brix: trend.course, ta: trend.ta.course, ph: trend.ph.course },
    targets: {
      brix: targetOf(ledger, block, 'brix'),
      ta: targetOf(ledger, block, 'ta'),
      ph: targetOf(ledger, block, 'ph'),
    },
  })
}
