import type { IsoDate } from '../../records/date.ts'
import { type Danger, graver } from '../danger/danger.ts'
import type { CoverDay } from './day.ts'
import { type CoverState, WHOLE } from './parts.ts'
import type { SprayCover } from './sprays.ts'

export interface CoverGap {
  from: IsoDate
  to: IsoDate
  days: number
  /** Greatest pressure of its days; null where none is known. */
  worstIndex: number | null
  /** The gravest danger of its days. */
  danger: Danger
  /** Its class; null where unknown. */
  risk: Risk | null
  /** The spray that covered the block before, and how its cover ended; null where none had. */
  after: { product: string; date: IsoDate; reason: SprayCover['reason'] } | null
  /** Sprays that covered a part of the block on some of its days. */
  parts: Pick<SprayCover, 'product' | 'date' | 'rows' | 'share'>[]
}

type Risk = 'low' | 'moderate' | 'high'

/** Days in a row on which a block needed cover and had none, each with the state of its day. */
export function gapsOf(
  days: readonly (CoverDay & { state: CoverState })[],
  sprays: readonly SprayCover[],
): CoverGap[] {
  const gaps: CoverGap[] = []
  days.forEach((day, at) => {
    if (!day.needed || day.covered !== false) return
    const before = days[at - 1]
    const running = gaps.at(-1)
    if (!running || before?.date !== running.to) {
      const ended =
        before?.state.decider ??
        sprays.findLast(({ date, share }) => date < day.date && share !== null && share >= WHOLE)
      const after = ended ? { product: ended.product, date: ended.date, reason: ended.reason } : null
      const parts: CoverGap['parts'] = []
      const { date, pressure: worstIndex, danger } = day
      gaps.push({ from: date, to: date, days: 1, worstIndex, danger, risk: null, after, parts })
      return
    }
    running.to = day.date
    running.days++
    running.danger = graver(running.danger, day.danger)
    if (day.pressure !== null) running.worstIndex = Math.max(running.worstIndex ?? 0, day.pressure)
  })
  return gaps.map((gap) => ({ ...gap, risk: riskOf(gap.danger), parts: partsIn(gap, sprays) }))
}

/** What covered a part only while the gap ran. */
function partsIn({ from, to }: CoverGap, sprays: readonly SprayCover[]): CoverGap['parts'] {
  return sprays
    .filter(({ share, date }) => share !== null && share < WHOLE && date <= to)
    .filter(({ until, sureUntil }) => (until ?? sureUntil ?? '') >= from)
    .map(({ product, date, rows, share }) => ({ product, date, rows, share }))
}

const riskOf = ({ level }: Danger): Risk | null => (level === 'unknown' ? null : level)
