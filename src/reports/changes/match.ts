import { type BookEntry, fieldsOf } from './entries.ts'

export interface Matched {
  added: BookEntry[]
  removed: BookEntry[]
  corrected: { before: BookEntry; after: BookEntry }[]
}

/** How like two entries must be, of 1, to count as one that was corrected. */
const ALIKE_ENOUGH = 0.6
/** What the same date and a shared block add to the likeness, and how like such entries must be. */
const SAME_DAY = 0.15
const ALIKE_ON_A_DAY = 0.3

/**
 * Pairs the entries of two revisions by what they say and not by where they stand. Equal ones drop out, in
 * whichever file or order; of the rest, pairs of the same identity or of much the same content are one entry
 * that was corrected, the likest first.
 */
export function matchEntries(before: readonly BookEntry[], after: readonly BookEntry[]): Matched {
  const counts = new Map<string, number>()
  for (const { content } of before) counts.set(content, (counts.get(content) ?? 0) + 1)
  const added = after.filter((entry) => !takeOne(counts, entry.content))
  const removed = before
    .toReversed()
    .filter((entry) => takeOne(counts, entry.content))
    .reverse()
  const pairs = removed.flatMap((one) =>
    added
      .filter(({ kind }) => kind === one.kind)
      .map((other) => ({ before: one, after: other, likeness: likenessOf(one, other) })),
  )
  const likely = pairs.filter(({ likeness }) => likeness > 0)
  const paired = new Set<BookEntry>()
  const corrected: Matched['corrected'] = []
  for (const pair of likely.sort((a, b) => b.likeness - a.likeness)) {
    if (paired.has(pair.before) || paired.has(pair.after)) continue
    paired.add(pair.before).add(pair.after)
    corrected.push({ before: pair.before, after: pair.after })
  }
  const alone = (entry: BookEntry) => !paired.has(entry)
  return { added: added.filter(alone), removed: removed.filter(alone), corrected }
}

function takeOne(counts: Map<string, number>, content: string): boolean {
  const left = counts.get(content) ?? 0
  if (left > 0) counts.set(content, left - 1)
  return left > 0
}

function likenessOf(a: BookEntry, b: BookEntry): number {
  if (a.kind === 'vineyard' || (a.id !== null && a.id === b.id)) return 2
  const same = a.date !== null && a.date === b.date && a.blocks.some((block) => b.blocks.includes(block))
  const share = shareOfFields(a, b)
  if (share < (same ? ALIKE_ON_A_DAY : ALIKE_ENOUGH)) return 0
  return share + (same ? SAME_DAY : 0)
}

/** Share of the fields of both that are equal: 1 for equal entries, 0 for those with nothing in common. */
function shareOfFields(a: BookEntry, b: BookEntry): number {
  const [mine, others] = [fieldsOf(a), fieldsOf(b)]
  let common = 0
  for (const [label, { value }] of mine) if (others.get(label)?.value === value) common += 1
  return (2 * common) / (mine.size + others.size)
}
