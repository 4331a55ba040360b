import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { placed } from '../../../src/ledger/read/source.ts'
import { readYaml } from '../../../src/ledger/yaml/read-yaml.ts'
import { fieldsOf, type LedgerEntry } from '../../../src/reports/changes/entries.ts'
import { matchEntries } from '../../../src/reports/changes/match.ts'

interface Said {
  kind: 'sprays' | 'samples'
  day: number
  blocks: string[]
  words: number[]
}

/** An entry as it would be read from a file of its own. */
function entryOf({ kind, day, blocks, words }: Said, file: string): LedgerEntry {
  const date = `2026-06-${String(10 + day)}`
  const record = { date, blocks, ...Object.fromEntries(words.map((word, index) => [`w${index}`, word])) }
  const text = JSON.stringify(record)
  const { node } = readYaml({ file, text })
  const source = { at: { file, text }, node: node! }
  return {
    ...{ kind, id: null, date, blocks, season: null, content: `${kind} ${text}`, file },
    record: placed(record, source),
  }
}

/** The pairs found the long way: of all that may be one entry the likest first, in the order of the records. */
function pairsTheLongWay(before: LedgerEntry[], after: LedgerEntry[]): [string, string][] {
  const said = (entry: LedgerEntry) => [...fieldsOf(entry)].map(([label, { value }]) => `${label} ${value}`)
  const all = before.flatMap((one) =>
    after.flatMap((other) => {
      const [mine, others] = [said(one), said(other)]
      const common = mine.filter((field) => others.includes(field)).length
      const share = (2 * common) / (mine.length + others.length)
      const isOneDay = one.date === other.date && one.blocks.some((block) => other.blocks.includes(block))
      const isAlike = one.kind === other.kind && share >= (isOneDay ? 0.3 : 0.6)
      return isAlike ? [{ one, other, likeness: share + (isOneDay ? 0.15 : 0) }] : []
    }),
  )
  const taken = new Set<LedgerEntry>()
  return all
    .sort((a, b) => b.likeness - a.likeness)
    .flatMap(({ one, other }): [string, string][] => {
      if (taken.has(one) || taken.has(other)) return []
      taken.add(one).add(other)
      return [[one.file, other.file]]
    })
}

const some = fc.array(
  fc.record({
    kind: fc.constantFrom<Said['kind']>('sprays', 'samples'),
    day: fc.nat(1),
    blocks: fc.subarray(['upper', 'lower', 'terrace'], { minLength: 1 }),
    words: fc.array(fc.constantFrom(0, 0, 0, 0, 1), { minLength: 6, maxLength: 8 }),
  }),
  { maxLength: 6 },
)

describe('entries of two states are paired', () => {
  test('as by holding each against each, the likest first, whatever they say', () => {
    fc.assert(
      fc.property(some, some, (old, now) => {
        const before = old.map((said, index) => entryOf(said, `old-${index}`))
        const after = now.map((said, index) => entryOf(said, `new-${index}`))
        const { added, removed, corrected } = matchEntries(before, after)
        const equal = (list: LedgerEntry[], others: LedgerEntry[]) =>
          list.filter(({ content }) => others.some((other) => other.content === content))
        // Equal ones drop out beforehand; the long way is asked of books that share none.
        fc.pre(equal(before, after).length === 0)
        const pairs = corrected.map((pair) => [pair.before.file, pair.after.file])
        expect(pairs).toEqual(pairsTheLongWay(before, after))
        expect(added.length + corrected.length).toBe(after.length)
        expect(removed.length + corrected.length).toBe(before.length)
      }),
      { numRuns: 300 },
    )
  })

  test('a small correction on its own day comes before one that is liker but for the day', () => {
    const old = { kind: 'sprays' as const, day: 1, blocks: ['upper'], words: [1, 1, 1, 1, 1, 1] }
    const own = entryOf({ ...old, words: [1, 1, 1, 1, 2, 2] }, 'own')
    const moved = entryOf({ ...old, day: 2 }, 'moved')
    const before = entryOf(old, 'old')
    const { corrected, added } = matchEntries([before], [moved, own])
    expect(corrected).toEqual([{ before, after: own }])
    expect(added).toEqual([moved])
  })
})
