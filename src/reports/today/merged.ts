import { mixCommand } from '../../facts/danger/mix-command.ts'
import { mayShareTank } from '../../facts/spraying/keep-apart.ts'
import type { TodayDraft, TodayFrom, Urgency } from './item.ts'

/** Kinds of which several items become one, each sentence kept. */
const MERGED = new Set<TodayDraft['what']>(['walk', 'sample', 'stage', 'last-spray', 'stock'])

/**
 * What items must share to become one. Beside those kinds: windows that are no matter of today, and protection that is
 * missing against several diseases in the same blocks where none is urgent and each danger is known; and what one and
 * the same tank is for. What is due now stays a line of its own.
 */
function keyOf({ what, urgency, blocks, next, level }: TodayDraft, at: number): string {
  if (MERGED.has(what)) return what
  if (urgency === 'now' && (what === 'cover' || what === 'clock') && next.startsWith('rowbook mix'))
    return next
  if (urgency === 'soon' && what === 'window' && next.startsWith('rowbook ready')) return 'window'
  if (urgency === 'soon' && what === 'cover' && level !== 'unknown' && next.startsWith('rowbook mix'))
    return `cover ${blocks.join(' ')}`
  return String(at)
}

export const ORDER: Record<Urgency, number> = { now: 0, soon: 1, plan: 2 }

/** Items of the same kind as one of the greatest urgency among them, so that a day's list stays short. */
export function merged(items: readonly TodayDraft[], from: TodayFrom): TodayDraft[] {
  const groups = new Map<string, TodayDraft[]>()
  items.forEach((item, at) => {
    const key = keyOf(item, at)
    const own = groups.get(key) ?? []
    // What can't share a tank keeps a line and a command of its own.
    if (shareTank([...own, item], from)) groups.set(key, [...own, item])
    else groups.set(String(at), [item])
  })
  return [...groups.values()].map((all) => {
    const [first, ...rest] = all.toSorted((a, b) => ORDER[a.urgency] - ORDER[b.urgency])
    if (rest.length === 0) return first!
    return {
      ...first!,
      disease: rest.every(({ disease }) => disease === first!.disease) ? (first!.disease ?? null) : null,
      reasons: all.flatMap(({ reasons = [] }) => reasons),
      next: first!.what === 'window' ? 'rowbook ready --all' : (oneTank(all, from) ?? first!.next),
      blocks: [...new Set(all.flatMap(({ blocks }) => blocks))],
      text: [first!, ...rest].map(({ text }) => text).join(' '),
      short: [first!, ...rest].map(({ short, text }) => short ?? text).join(' '),
    }
  })
}

export const tankOf = (items: readonly TodayDraft[]) => ({
  products: [...new Set(items.flatMap(({ tank }) => tank?.products ?? []))],
  diseases: [...new Set(items.flatMap(({ tank }) => tank?.diseases ?? []))],
})

export const shareTank = (items: readonly TodayDraft[], { ledger }: TodayFrom) =>
  mayShareTank(tankOf(items).products.map((id) => ledger.products.get(id)!))

/** The one `mix` command of all that the items spray; null where they spray nothing. */
function oneTank(items: readonly TodayDraft[], from: TodayFrom): string | null {
  const { products, diseases } = tankOf(items)
  return products.length === 0 ? null : mixCommand(from, { blocks: items[0]!.blocks, products, diseases })
}
