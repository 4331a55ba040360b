import { addDays, type IsoDate } from '../../records/date.ts'
import type { Danger } from '../danger/danger.ts'

export interface CoverDay {
  date: IsoDate
  /** Null where it can't be known; `why` says why. */
  covered: boolean | null
  /**
   * Id of the product that protects; of several on parts of the block, the one whose protection ends first; else null.
   */
  by: string | null
  /** Days after this one for which the whole block stays protected. */
  daysLeft: number | null
  /** Share of the block that is protected, 0 to 1; null where unknown. */
  share: number | null
  /** Whether part of the block is certainly protected (even spots of unknown extent) and the whole certainly isn't. */
  inPart: boolean
  why: string | null
  /** mm since the newest spray, up to the end of the day; null where rain is missing or nothing was sprayed. */
  rainSince: number | null
  /**
   * The disease's index on the day: powdery 0 to 100, botrytis 0 to 1, downy and black rot 1 where infection was
   * possible.
   */
  pressure: number | null
  /** How likely and serious the disease is on the day, and why. */
  danger: Danger
  /** Whether anything can be infected that a spray could protect. */
  needed: boolean
}

/** The first and the last day on which a block needed protection, and what the last day is based on. */
export type NeededSpan = ReturnType<typeof neededSpan>

/**
 * The days on which something could be infected that a spray could protect, by the judgement of danger; up to the day
 * before `from` where none was.
 */
export function neededSpan(
  days: readonly CoverDay[],
  { start, isJudged }: { start: IsoDate; isJudged: boolean },
) {
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
