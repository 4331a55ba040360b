import type { DangerJudge } from '../../facts/danger/danger.ts'
import { findSentence, followUps } from '../../facts/danger/follow-up.ts'
import type { ReportInput } from '../../facts/report.ts'
import { asSentences } from '../../facts/say.ts'
import type { IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'

/** A scouting round due after a find. */
interface Round {
  block: string
  date: IsoDate
  diseases: string[]
  detail: string
}

/** The rounds due after finds and treatments: one for each block, on the earliest due day. */
export function roundsDue(input: ReportInput, judge: DangerJudge): Round[] {
  const due = followUps(input, judge).filter(({ nextRound }) => nextRound !== null)
  return input.blocks.flatMap(({ id }) => {
    const own = due.filter(({ block }) => block === id)
    const date = own.map(({ nextRound }) => nextRound!).sort()[0]
    if (date === undefined) return []
    const detail = own.map((one) => {
      const last = one.treated.at(-1)
      return `${findSentence(one)}; ${last ? `treated ${spokenDate(last.date)}` : 'not treated yet'}`
    })
    return [
      {
        block: id,
        date,
        diseases: [...new Set(own.map(({ disease }) => disease))],
        detail: asSentences(detail),
      },
    ]
  })
}
