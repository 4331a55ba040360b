import type { DayChart } from '../../facts/charts/day-chart.ts'
import type { CoverDay } from '../../facts/protection/day.ts'
import type { IsoDate } from '../../records/date.ts'
import type { BlockCover } from './report.ts'

/** The pressure of the days with what was sprayed on a block, when it was covered, and when it should have been. */
export function coverChart(pressure: DayChart, block: BlockCover): DayChart {
  const covered = runsOf(block.days, (day) => day.covered === true)
  const part = runsOf(block.days, (day) => day.needed && day.covered === false && (day.share ?? 0) > 0)
  const open = runsOf(block.days, (day) => day.covered === null && day.needed)
  return {
    ...pressure,
    marks: [...new Set(block.sprays.map(({ date }) => date))].map((date) => ({ date, label: 'sprayed' })),
    spans: [
      ...covered.map((run) => ({ ...run, label: 'covered' })),
      ...block.gaps.map(({ from, to }) => ({ from, to, label: 'gap' })),
      ...part.map((run) => ({ ...run, label: 'covered in part' })),
      ...open.map((run) => ({ ...run, label: 'not known' })),
    ],
  }
}

function runsOf(
  days: readonly CoverDay[],
  holds: (day: CoverDay) => boolean,
): { from: IsoDate; to: IsoDate }[] {
  const runs: { from: IsoDate; to: IsoDate }[] = []
  days.forEach((day, index) => {
    if (!holds(day)) return
    const before = days[index - 1]
    if (before && holds(before)) runs.at(-1)!.to = day.date
    else runs.push({ from: day.date, to: day.date })
  })
  return runs
}
