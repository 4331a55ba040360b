import type { DaySum } from '../../agronomy/heat/degree-days.ts'
import type { ReportInput } from '../../facts/report.ts'
import { daysBetween, type IsoDate } from '../../records/date.ts'
import { GROWTH_STAGES, nearestStage } from '../../records/growth-stage.ts'

/** How long ago a block reached a growth stage, in days and in heat. */
export type StageHeat = ReturnType<typeof stageHeat>[number]

/** The growth stages seen this season, each on the first day that it was seen. */
export function stageHeat({ ledger, season, asOf, blocks }: ReportInput, since: (date: IsoDate) => DaySum) {
  const seen = new Set<string>()
  return blocks.flatMap(({ id }) =>
    ledger.stages
      .filter((entry) => entry.block === id && entry.season === season && entry.date <= asOf)
      .filter(({ stage }) => !seen.has(`${id} ${stage}`) && seen.add(`${id} ${stage}`))
      .map(({ stage, date }) => {
        const { sum, missing } = since(date)
        const name = GROWTH_STAGES.get(stage) ?? GROWTH_STAGES.get(nearestStage(stage)) ?? ''
        return {
          block: id,
          stage,
          name,
          date,
          days: daysBetween(date, asOf),
          /** °C-days from the day after; null where no day is known. */
          degreeDays: sum,
          missing,
        }
      }),
  )
}
