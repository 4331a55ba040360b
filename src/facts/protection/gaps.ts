import { highest } from '../../agronomy/statistics/extremes.ts'
import type { IsoDate } from '../../records/date.ts'
import { atFirstUse } from '../../records/fields/field.ts'
import { type Danger, graver } from '../danger/danger.ts'
import type { CoverDay } from './day.ts'
import { WHOLE } from './parts.ts'
import type { SprayCover } from './sprays.ts'

export type CoverGap = ReturnType<typeof gapOf>

/** Runs of days on which a block needed protection and had none; `deciderOn` gives what protected it on a day. */
export function gapsOf(
  days: readonly CoverDay[],
  deciderOn: (date: IsoDate) => SprayCover | null,
  sprays: readonly SprayCover[],
): CoverGap[] {
  const isOpen = days.map((day) => day.covered === false && day.needed)
  return days.flatMap((first, at) => {
    if (!isOpen[at] || isOpen[at - 1]) return []
    const end = isOpen.indexOf(false, at)
    const open = days.slice(at, end < 0 ? undefined : end)
    const before = days[at - 1]
    const ended =
      (before && deciderOn(before.date)) ??
      sprays.findLast(({ date, share }) => date < first.date && share !== null && share >= WHOLE)
    return gapOf(open, { ended, sprays })
  })
}

function gapOf(
  open: readonly CoverDay[],
  { ended, sprays }: { ended: SprayCover | undefined; sprays: readonly SprayCover[] },
) {
  const from = open[0]!.date
  const to = open.at(-1)!.date
  const known = open.flatMap(({ pressure }) => pressure ?? [])
  const dangerOf = atFirstUse(() => gravestOf(open))
  return {
    from,
    to,
    days: open.length,
    /** Highest pressure of its days; null where none is known. */
    worstIndex: known.length > 0 ? highest(known) : null,
    /** The most serious danger of its days. */
    get danger() {
      return dangerOf()
    },
    /** Its class; null where unknown. */
    get risk() {
      const { level } = dangerOf()
      return level === 'unknown' ? null : level
    },
    /** The spray that protected the block before, and how its protection ended; null where there was none. */
    after: ended ? { product: ended.product, date: ended.date, reason: ended.reason } : null,
    /** Sprays that protected part of the block on some of these days. */
    parts: sprays
      .filter(({ share, date, until, sureUntil }) => {
        const isPart = share !== null && share < WHOLE
        return isPart && date <= to && (until ?? sureUntil ?? '') >= from
      })
      .map(({ product, date, rows, share }) => ({ product, date, rows, share })),
  }
}

/** The gravest danger of a gap; no day after one of high danger can be graver, and judging a day takes time. */
function gravestOf(open: readonly CoverDay[]): Danger {
  let gravest = open[0]!.danger
  for (const day of open.slice(1)) {
    if (gravest.level === 'high') break
    gravest = graver(gravest, day.danger)
  }
  return gravest
}
