import { groupedBy } from '../../facts/judged.ts'
import { fieldsOf, type LedgerEntry } from './entries.ts'

interface Matched {
  added: LedgerEntry[]
  removed: LedgerEntry[]
  corrected: { before: LedgerEntry; after: LedgerEntry }[]
}

/** Similarity, 0 to 1, from which two entries count as one that was corrected. */
const ALIKE_ENOUGH = 0.6
/** What the same date and a shared block add to the similarity, and the similarity then needed. */
const SAME_DAY = 0.15
const ALIKE_ON_A_DAY = 0.3
/**
 * Entries of one kind that are as like as this have one date: with two, a field would differ, and a day add nothing.
 */
const SURE = 1

/**
 * Pairs the entries of two revisions by content, not by place. Equal ones drop out, in
 * any file or order; of the rest, pairs with the same identity or very similar content are one entry
 * that was corrected, most similar first.
 */
export function matchEntries(before: readonly LedgerEntry[], after: readonly LedgerEntry[]): Matched {
  const counts = new Map<string, number>()
  for (const { content } of before) counts.set(content, (counts.get(content) ?? 0) + 1)
  const added = after.filter((entry) => !takeOne(counts, entry.content))
  const removed = before
    .toReversed()
    .filter((entry) => takeOne(counts, entry.content))
    .reverse()
  const numbers = new Map<string, number>()
  const [old, now] = [removed, added].map((list) => list.map((entry) => numbered(entry, numbers)))
  const paired = new Set<LedgerEntry>()
  const isAlone = (entry: LedgerEntry) => !paired.has(entry)
  const left = (list: readonly Numbered[]) => list.filter(({ entry }) => isAlone(entry))
  const corrected: Matched['corrected'] = []
  // Most are paired on their own day, and need no comparison with the others.
  for (const from of [SURE, 0]) {
    for (const pair of likestFirst(left(old!), left(now!), from)) {
      if (paired.has(pair.before) || paired.has(pair.after)) continue
      paired.add(pair.before).add(pair.after)
      corrected.push(pair)
    }
  }
  return { added: added.filter(isAlone), removed: removed.filter(isAlone), corrected }
}

function takeOne(counts: Map<string, number>, content: string): boolean {
  const left = counts.get(content) ?? 0
  if (left > 0) counts.set(content, left - 1)
  return left > 0
}

type Pair = Matched['corrected'][number]

/**
 * Every pair that may be one entry, most similar first. Similarity takes few values, so pairs are grouped by it.
 * @param from the smallest similarity.
 */
function likestFirst(old: readonly Numbered[], now: readonly Numbered[], from: number): Pair[] {
  const groupOf = ({ entry: { kind, date } }: Numbered) => (from >= SURE ? `${kind} ${date}` : kind)
  const groups = groupedBy(now, groupOf)
  const pairs = new Map<number, Pair[]>()
  for (const one of old) {
    for (const other of groups.get(groupOf(one)) ?? []) {
      const likeness = likenessOf(one, other)
      if (likeness <= 0 || likeness < from) continue
      const same = pairs.get(likeness)
      const pair = { before: one.entry, after: other.entry }
      if (same) same.push(pair)
      else pairs.set(likeness, [pair])
    }
  }
  return [...pairs].sort(([a], [b]) => b - a).flatMap(([, same]) => same)
}

interface Numbered {
  entry: LedgerEntry
  /** A number for each field and what it says, the same for both states; in order. */
  fields: Uint32Array
}

function numbered(entry: LedgerEntry, numbers: Map<string, number>): Numbered {
  const list = [...fieldsOf(entry)].map(([label, { value }]) => {
    const key = `${label} ${value}`
    const number = numbers.get(key) ?? numbers.size
    numbers.set(key, number)
    return number
  })
  return { entry, fields: Uint32Array.from(list).sort() }
}

function likenessOf(one: Numbered, other: Numbered): number {
  const [a, b] = [one.entry, other.entry]
  if (a.kind === 'vineyard' || (a.id !== null && a.id === b.id)) return 2
  const same = a.date !== null && a.date === b.date && a.blocks.some((block) => b.blocks.includes(block))
  const share = shareOfFields(one.fields, other.fields)
  if (share < (same ? ALIKE_ON_A_DAY : ALIKE_ENOUGH)) return 0
  return share + (same ? SAME_DAY : 0)
}

/** Share of the fields of both that are equal: 1 for equal entries, 0 for those with nothing in common. */
function shareOfFields(mine: Uint32Array, others: Uint32Array): number {
  let common = 0
  let at = 0
  for (const field of mine) {
    while (others[at]! < field) at += 1
    if (others[at] === field) common += 1
  }
  return (2 * common) / (mine.length + others.length)
}
