import { mixCommand } from '../../facts/danger/mix-command.ts'
import { mayShareTank } from '../../facts/spraying/keep-apart.ts'
import { blocksOf, diseaseOf, type TodayDraft, type TodayFrom, type Urgency } from './item.ts'

export const ORDER: Record<Urgency, number> = { now: 0, soon: 1, plan: 2 }

/** Items that a day's list has at most, where what is left to do allows it. Our own choice. */
const FEW = 5

/** What makes items one job: those that share a key become one; null for an item that stays as it is. */
type Step = (item: TodayDraft) => string | null

/** Kinds of which several items become one, each sentence kept. */
const MERGED = new Set<TodayDraft['what']>(['walk', 'sample', 'stage', 'last-spray', 'stock'])

/**
 * What becomes one however short the list is. Beside those kinds: windows that are no matter of today, and protection that
 * is missing against several diseases in the same blocks where none is urgent and each danger is known; and what one and
 * the same tank is for. What is due now stays a line of its own.
 */
const FIRST_STEP: Step = ({ what, urgency, blocks, next, level, tank }) => {
  if (MERGED.has(what)) return what
  const mixes = next.startsWith('rowbook mix')
  // A find and a neighbour without protection get one tank, not two of the same product.
  if (urgency === 'now' && tank && (what === 'find' || what === 'cover' || what === 'clock'))
    return `${tank.products} ${tank.diseases}`
  if (urgency !== 'soon') return null
  if (what === 'window' && next.startsWith('rowbook ready')) return what
  return what === 'cover' && level !== 'unknown' && mixes ? `cover ${blocks.join(' ')}` : null
}

const isLook = ({ what, next }: TodayDraft) =>
  what === 'walk' || what === 'sample' || what === 'stage' || next.startsWith('rowbook note scouting')

/** Further jobs, for a list that is still long, the lightest matters first. */
const STEPS: readonly Step[] = [
  // One way through the rows: scouting, samples, growth stages.
  (item) => (isLook(item) ? 'rows' : null),
  // One decision: which block is picked when, and which was.
  ({ what }) => (what === 'window' ? 'picking' : null),
  // What waits.
  (item) => (item.urgency === 'plan' && !isLook(item) ? 'later' : null),
  // Sprays of the next days; where the danger isn't known, that is reported by itself as long as there is room.
  ({ what, urgency, level }) =>
    what === 'cover' && urgency === 'soon' && level !== 'unknown' ? 'sprays' : null,
  // One disease tonight.
  ({ what, disease, urgency }) => (what === 'cover' && urgency === 'now' && disease ? disease : null),
  // What one block needs tonight.
  ({ what, blocks, urgency }) =>
    (what === 'cover' || what === 'find') && urgency === 'now' && blocks.length === 1 ? blocks[0]! : null,
  // All sprays of the next days.
  ({ what, urgency }) => (what === 'cover' && urgency === 'soon' ? 'sprays' : null),
]

/**
 * A day's list made short: items of one job become one of the greatest urgency among them. In a long list more counts as
 * one job, and the line has the commands of all of it.
 */
export function merged(items: readonly TodayDraft[], from: TodayFrom): TodayDraft[] {
  // What can't share a tank keeps a line and a command of its own.
  const fits = (own: readonly TodayDraft[]) => shareTank(own, from)
  let list = joinedBy(items, FIRST_STEP, fits).map((all) =>
    all.length === 1 ? all[0]! : { ...joined(all, from), also: all.flatMap(({ also = [] }) => also) },
  )
  for (const step of STEPS) {
    if (list.length <= FEW) break
    list = joinedBy(list, step, () => true).map((all) => (all.length === 1 ? all[0]! : joined(all, from)))
  }
  return list
}

/** Items with the same key together, where the first of them stands; one that doesn't fit the others stays alone. */
function joinedBy(
  items: readonly TodayDraft[],
  step: Step,
  fits: (own: readonly TodayDraft[]) => boolean,
): TodayDraft[][] {
  const groups = new Map<string | number, TodayDraft[]>()
  items.forEach((item, at) => {
    const key = step(item) ?? at
    const all = [...(groups.get(key) ?? []), item]
    if (fits(all)) groups.set(key, all)
    else groups.set(at, [item])
  })
  return [...groups.values()]
}

function joined(all: readonly TodayDraft[], from: TodayFrom): TodayDraft {
  const byUrgency = all.toSorted((a, b) => ORDER[a.urgency] - ORDER[b.urgency])
  const ordered = byUrgency.toSorted((a, b) => Number(b.what === 'walk') - Number(a.what === 'walk'))
  const blocks = blocksOf(ordered)
  const isOne = ordered.every(({ tank }) => tank) && shareTank(ordered, from) && isOneJob(ordered)
  const tank = isOne ? tankOf(ordered) : undefined
  const [next, ...also] = tank ? [mixCommand(from, { blocks, ...tank })] : commandsOf(ordered)
  return {
    ...ordered[0]!,
    tank,
    urgency: byUrgency[0]!.urgency,
    disease: diseaseOf(ordered),
    reasons: [...new Set(ordered.flatMap(({ reasons = [] }) => reasons))],
    blocks,
    text: sentences(ordered.map(({ text }) => text)),
    short: sentences(ordered.map(({ short, text }) => short ?? text)),
    next: next!,
    also,
  }
}

/** The commands of all, each once; one page of several blocks that may be picked. */
function commandsOf(items: readonly TodayDraft[]): string[] {
  const all = new Set(items.flatMap(({ next, also = [] }) => [next, ...also]))
  const pages = [...all].filter((one) => one.startsWith('rowbook ready'))
  return pages.length < 2
    ? [...all]
    : ['rowbook ready --all', ...[...all].filter((one) => !pages.includes(one))]
}

const tankOf = (items: readonly TodayDraft[]) => ({
  products: [...new Set(items.flatMap(({ tank }) => tank?.products ?? []))],
  diseases: [...new Set(items.flatMap(({ tank }) => tank?.diseases ?? []))],
})

const shareTank = (items: readonly TodayDraft[], { ledger }: TodayFrom) =>
  mayShareTank(tankOf(items).products.map((id) => ledger.products.get(id)!))

/** Whether one tank serves all: the same products on several blocks, or several on the same blocks. */
const isOneJob = (items: readonly TodayDraft[]) =>
  new Set(items.map(({ tank }) => tank!.products.toSorted().join())).size === 1 ||
  new Set(items.map(({ blocks }) => blocks.toSorted().join())).size === 1

/** Texts behind one another, a sentence that comes again left out. */
const sentences = (texts: readonly string[]) =>
  [...new Set(texts.flatMap((text) => text.split(/(?<=\.) (?=\p{Lu})/u)))].join(' ')
