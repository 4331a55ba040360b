import type { TodayDraft, Urgency } from './item.ts'

/** Kinds of which several items become one, each sentence kept. */
const MERGED = new Set<TodayDraft['what']>(['walk', 'sample', 'stage', 'last-spray', 'stock'])

export const ORDER: Record<Urgency, number> = { now: 0, soon: 1, plan: 2 }

/** Items of the same kind as one of the greatest urgency among them, so that a day's list stays short. */
export function merged(items: readonly TodayDraft[]): TodayDraft[] {
  const groups = new Map<string, TodayDraft[]>()
  items.forEach((item, at) => {
    const key = MERGED.has(item.what) ? item.what : String(at)
    groups.set(key, [...(groups.get(key) ?? []), item])
  })
  return [...groups.values()].map((all) => {
    const [first, ...rest] = all.toSorted((a, b) => ORDER[a.urgency] - ORDER[b.urgency])
    if (rest.length === 0) return first!
    return {
      ...first!,
      blocks: [...new Set(all.flatMap(({ blocks }) => blocks))],
      text: [first!, ...rest].map(({ text }) => text).join(' '),
      short: [first!, ...rest].map(({ short, text }) => short ?? text).join(' '),
    }
  })
}
