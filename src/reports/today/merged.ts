import type { TodayDraft, Urgency } from './item.ts'

/** Kinds of which several items become one, each sentence kept. */
const MERGED = new Set<TodayDraft['what']>(['walk', 'sample', 'stage', 'last-spray', 'stock'])

/**
 * What items must share to become one. Beside those kinds: windows that are no matter of today, and protection that is
 * missing against several diseases in the same blocks where none is urgent. What is due now stays a line of its own.
 */
function keyOf({ what, urgency, blocks, next }: TodayDraft, at: number): string {
  if (MERGED.has(what)) return what
  if (urgency === 'soon' && what === 'window' && next.startsWith('rowbook ready')) return 'window'
  if (urgency === 'soon' && what === 'cover' && next.startsWith('rowbook mix'))
    return `cover ${blocks.join(' ')}`
  return String(at)
}

export const ORDER: Record<Urgency, number> = { now: 0, soon: 1, plan: 2 }

/** Items of the same kind as one of the greatest urgency among them, so that a day's list stays short. */
export function merged(items: readonly TodayDraft[]): TodayDraft[] {
  const groups = new Map<string, TodayDraft[]>()
  items.forEach((item, at) => {
    const key = keyOf(item, at)
    groups.set(key, [...(groups.get(key) ?? []), item])
  })
  return [...groups.values()].map((all) => {
    const [first, ...rest] = all.toSorted((a, b) => ORDER[a.urgency] - ORDER[b.urgency])
    if (rest.length === 0) return first!
    return {
      ...first!,
      disease: rest.every(({ disease }) => disease === first!.disease) ? (first!.disease ?? null) : null,
      reasons: all.flatMap(({ reasons = [] }) => reasons),
      next: first!.what === 'window' ? 'rowbook ready --all' : first!.next,
      blocks: [...new Set(all.flatMap(({ blocks }) => blocks))],
      text: [first!, ...rest].map(({ text }) => text).join(' '),
      short: [first!, ...rest].map(({ short, text }) => short ?? text).join(' '),
    }
  })
}
