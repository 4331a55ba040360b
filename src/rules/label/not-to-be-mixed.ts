import type { Book } from '../../facts/book.ts'
import { judged } from '../../facts/judged.ts'
import { incompatible } from '../../facts/spraying/incompatible.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { findingAt, type Rule } from '../rule.ts'

/** Products in one tank that spoil each other or burn the vine, where no label has said so. */
export const notToBeMixed: Rule = {
  name: 'not-to-be-mixed',
  about: {
    what: 'Two products in one tank that are known not to mix: copper with a phosphonate or with captan, bicarbonate with something acid. What the labels keep apart is in `kept-apart`.',
    source:
      'copper with phosphonates or captan: Shane & Sundin, Michigan State University 2011; bicarbonate with acid: common practice, no source',
    basis: 'common practice',
  },
  check: (book) => judged(book, 'sprays').flatMap((spray) => pairsOf(book, spray)),
}

function pairsOf({ ledger }: Book, spray: SprayEntry): Finding[] {
  const parts = spray.products.map(({ product }) => ledger.products.get(product))
  return parts.flatMap((later, index) =>
    parts.slice(0, index).flatMap((earlier): Finding[] => {
      const against = earlier && later && earlier.id !== later.id ? incompatible(earlier, later) : null
      if (!against) return []
      return [
        findingAt(spray, ['products', index, 'product'], {
          name: 'not-to-be-mixed',
          level: 'warning',
          message: `do not mix ${earlier!.id} and ${later!.id}: ${against.why} (${against.source})`,
          help: 'spray them on different days; if they were sprayed together, look for burnt leaves. The labels decide',
        }),
      ]
    }),
  )
}
