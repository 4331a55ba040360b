import { mixCommand } from '../../facts/danger/mix-command.ts'
import type { TodayDraft, TodayFrom } from './item.ts'
import { ORDER, shareTank, tankOf } from './merged.ts'

/** Items that a day's list has at most, where what is left to do allows it. Our own choice. */
const FEW = 5

/** What makes items one job: those that share a key are reported in one line, one step after the other. */
type Step = (item: TodayDraft) => string | null

const isLook = ({ what, next }: TodayDraft) =>
  what === 'walk' || what === 'sample' || what === 'stage' || next.startsWith('rowbook note scouting')

const STEPS: readonly Step[] = [
  // One way through the rows: scouting, samples, growth stages.
  (item) => (isLook(item) ? 'rows' : null),
  // One decision: which block is picked when, and which was.
  ({ what }) => (what === 'window' ? 'picking' : null),
  // What waits.
  (item) => (item.urgency === 'plan' && !isLook(item) ? 'later' : null),
  // Sprays of the next days; where the danger isn't known, that is reported by itself as long as there is room.
  ({ what, urgency, level }) =>
    isCover(what) && urgency === 'soon' && level !== 'unknown' ? 'sprays' : null,
  // One disease tonight.
  ({ what, disease, urgency }) => (isCover(what) && urgency === 'now' && disease ? `cover ${disease}` : null),
  // What one block needs tonight.
  ({ what, blocks, urgency }) =>
    (isCover(what) || what === 'find') && urgency === 'now' && blocks.length === 1 ? blocks[0]! : null,
  // All sprays of the next days.
  ({ what, urgency }) => (isCover(what) && urgency === 'soon' ? 'sprays' : null),
]

const isCover = (what: TodayDraft['what']) => what === 'cover'

/** A long list made shorter: what is one job becomes one line with the commands of all of it, the lightest matters first. */
export function folded(items: readonly TodayDraft[], from: TodayFrom): TodayDraft[] {
  let list = [...items]
  for (const step of STEPS) {
    if (list.length <= FEW) break
    list = joined(list, step, from)
  }
  return list
}

function joined(items: readonly TodayDraft[], step: Step, from: TodayFrom): TodayDraft[] {
  const keys = items.map(step)
  return items.flatMap((item, at) => {
    const key = keys[at]
    if (key == null) return item
    const all = items.filter((_, other) => keys[other] === key)
    return keys.indexOf(key) < at ? [] : all.length === 1 ? item : joinedItem(all, from)
  })
}

function joinedItem(all: readonly TodayDraft[], from: TodayFrom): TodayDraft {
  const ordered = all.toSorted(
    (a, b) => Number(b.what === 'walk') - Number(a.what === 'walk') || ORDER[a.urgency] - ORDER[b.urgency],
  )
  const [first] = ordered
  const [urgent] = all.toSorted((a, b) => ORDER[a.urgency] - ORDER[b.urgency])
  const blocks = [...new Set(ordered.flatMap((item) => item.blocks))]
  const tank = tankOf(ordered)
  const isOne = ordered.every((item) => item.tank) && shareTank(ordered, from) && isOneJob(ordered)
  const [next, ...also] = isOne ? [mixCommand(from, { blocks, ...tank })] : commandsOf(ordered)
  return {
    ...first!,
    ...(isOne ? { tank } : { tank: undefined }),
    urgency: urgent!.urgency,
    disease: ordered.every(({ disease }) => disease === first!.disease) ? (first!.disease ?? null) : null,
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

/** Whether one tank serves all: the same products on several blocks, or several on the same blocks. */
const isOneJob = (items: readonly TodayDraft[]) =>
  new Set(items.map(({ tank }) => tank!.products.toSorted().join())).size === 1 ||
  new Set(items.map(({ blocks }) => blocks.toSorted().join())).size === 1

/** Texts behind one another, a sentence that comes again left out. */
const sentences = (texts: readonly string[]) =>
  [...new Set(texts.flatMap((text) => text.split(/(?<=\.) (?=\p{Lu})/u)))].join(' ')
