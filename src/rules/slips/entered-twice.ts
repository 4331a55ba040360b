import { judged, overlap } from '../../facts/judged.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import type { Placed } from '../../ledger/read/source.ts'
import { SEASON_KINDS, SINGULAR } from '../../records/kinds.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** The same thing typed twice. */
export const enteredTwice: Rule = {
  name: 'entered-twice',
  about: {
    what: 'Two entries of one kind say the same of the same block on the same day; names and notes are not compared. Of sprays, the same products on the same rows of a block on one day are enough.',
    source: 'own rule: what is done once is entered once',
    basis: 'own',
  },
  check(book) {
    return SEASON_KINDS.flatMap((kind) => {
      const entries = judged(book, kind) as (Placed<object> & { date: string })[]
      const before = new Map<string, typeof entries>()
      return entries.flatMap((entry): Finding[] => {
        const where = 'block' in entry ? `${entry.date} ${entry.block}` : entry.date
        const sameDay = before.get(where) ?? []
        const first = sameDay.find((other) => same(kind, other, entry))
        before.set(where, [...sameDay, entry])
        if (!first) return []
        return [
          findingAt(entry, ['date'], {
            name: 'entered-twice',
            level: 'warning',
            message: `this ${SINGULAR[kind]} of ${entry.date} is in the book already, at ${mention(first)}`,
            help: 'take one of the two out; if it was really done twice, say so by its times or rows',
          }),
        ]
      })
    })
  },
}

function same(kind: string, a: object, b: object): boolean {
  return kind === 'sprays' ? sameSpray(a as SprayEntry, b as SprayEntry) : essence(a) === essence(b)
}

function sameSpray(a: SprayEntry, b: SprayEntry): boolean {
  const products = (spray: SprayEntry) =>
    spray.products
      .map(({ product }) => product)
      .sort()
      .join(' ')
  const apart = a.time && b.time && a.time.start !== b.time.start
  return (
    products(a) === products(b) && !apart && a.blocks.some((id) => b.blocks.includes(id)) && overlap(a, b)
  )
}

const WORDS = new Set(['note', 'who', 'operator', 'instrument'])

/** What an entry says; its keys come in the order of its kind, however they were written. */
const essence = (entry: object) => JSON.stringify(Object.entries(entry).filter(([key]) => !WORDS.has(key)))
