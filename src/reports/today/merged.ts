import type { TodayDraft } from './item.ts'

/** Kinds of which several items of one urgency become one, each sentence kept. */
const MERGED = new Set<TodayDraft['what']>(['walk', 'sample', 'stage', 'last-spray', 'stock'])

/** Items of the same kind and urgency as one, so that a day's list stays short. */
export function merged(items: readonly TodayDraft[]): TodayDraft[] {
  const groups = new Map<string, TodayDraft[]>()
  items.forEach((item, at) => {
    const key = MERGED.has(item.what) ? `${item.what} ${item.urgency}` : String(at)
    groups.set(key, [...(groups.get(key) ?? []), item])
  })
  return [...groups.values()].map(([first, ...rest]) => {
    if (rest.length === 0) return first!
    const all = [first!, ...rest]
    return {
      ...first!,
      blocks: [...new Set(all.flatMap(({ blocks }) => blocks))],
      text: all.map(({ text }) => text).join(' '),
      short: all.map(({ short, text }) => short ?? text).join(' '),
    }
  })
}
