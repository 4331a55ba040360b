import type { DayChart, ProtectionKind } from '../../facts/charts/day-chart.ts'
import type { CoverDay } from '../../facts/protection/day.ts'
import type { IsoDate } from '../../records/date.ts'
import type { BlockCover } from './report.ts'

/** The pressure of the days with what was sprayed on a block, when it was protected, and when it should have been. */
export function coverChart(pressure: DayChart, block: BlockCover): DayChart {
  const inPart = (day: CoverDay) => day.needed && day.inPart
  const inGap = ({ date }: CoverDay) => block.gaps.some(({ from, to }) => from <= date && date <= to)
  const spansOf = (kind: ProtectionKind, holds: (day: CoverDay) => boolean) =>
    runsOf(block.days, holds).map((run) => ({ ...run, kind }))
  return {
    ...pressure,
    marks: [...new Set(block.sprays.map(({ date }) => date))].map((date) => ({ date, label: 'sprayed' })),
    spans: [
      ...spansOf('protected', (day) => day.covered === true),
      ...spansOf('protected in part', inPart),
      ...spansOf('unprotected', (day) => day.covered === false && inGap(day) && !inPart(day)),
      ...spansOf('not known', (day) => day.covered === null && day.needed),
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
