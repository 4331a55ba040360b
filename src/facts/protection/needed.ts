import { addDays, type IsoDate } from '../../records/date.ts'
import type { CoverDay } from './day.ts'

/** The first and the last day on which a block needed protection. */
interface NeededSpan {
  from: IsoDate
  /** Last day so far; the day before `from` where none was. */
  to: IsoDate
  /** What the last day is based on. */
  why: string
}

/** The days on which something could be infected that a spray could protect, by the judgement of danger. */
export function neededSpan(
  days: readonly CoverDay[],
  { start, isJudged }: { start: IsoDate; isJudged: boolean },
): NeededSpan {
  const last = days.at(-1)
  if (!isJudged) return { from: start, to: addDays(start, -1), why: 'not known here' }
  // Searched from both ends, since judging a day takes time.
  const first = days.find((day) => day.needed)
  if (!first || !last) {
    const from = addDays(last?.date ?? start, 1)
    return { from, to: addDays(from, -1), why: last?.danger.reasons.at(-1) ?? 'not yet' }
  }
  const why = last.needed ? 'still needed' : last.danger.reasons.at(-1)!
  return { from: first.date, to: days.findLast((day) => day.needed)!.date, why }
}
