import { applications, groupedBy, isJudged, overlap, productPath } from '../../facts/judged.ts'
import { once } from '../../facts/say.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import { gapBetween, OIL_AND_SULPHUR } from '../../facts/spraying/keep-apart.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import { addDays, daysBetween } from '../../records/date.ts'
import type { Product } from '../../records/product.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** Products that burn each other's leaves, or spoil each other, too close together. */
export const keptApart: Rule = {
  name: 'kept-apart',
  about: {
    what: 'Two products that a label keeps apart were used on the same vines within the gap, or in one tank. It applies in both directions. They may follow on the day the gap ends. Where neither label says anything, oil within 14 days of sulphur or captan is a warning.',
    limits:
      "the product's `keep_apart`: a product, an active or a kind, and the gap; 14 d between oil and sulphur or captan",
    source:
      "your label, as copied into the product's record; oil and sulphur: UC IPM Pest Notes 7494, year not known",
    basis: 'read',
  },
  check: (book) => {
    const reach = longestGap([...book.ledger.products.values()])
    return once(
      [...groupedBy(applications(book), ({ block }) => block.id).values()].flatMap((list) =>
        list.flatMap((later, index) =>
          isJudged(book, later.spray)
            ? list
                .slice(firstWithin(list, index, reach), index)
                .filter(
                  (earlier) => earlier.product.id !== later.product.id && overlap(earlier.spray, later.spray),
                )
                .flatMap((earlier) => tooClose(earlier, later))
            : [],
        ),
      ),
    )
  },
}

/** The longest of all gaps, in days: what lies further back can't be too close. */
const longestGap = (products: readonly Product[]) =>
  Math.max(OIL_AND_SULPHUR, ...products.flatMap(({ keep_apart }) => (keep_apart ?? []).map(({ gap }) => gap)))

/** The first of a list, oldest first, that is no more than so many days before the one at an index. */
function firstWithin(list: readonly Application[], index: number, days: number): number {
  const { date } = list[index]!.spray
  let first = index
  while (first > 0 && daysBetween(list[first - 1]!.spray.date, date) <= days) first -= 1
  return first
}

function tooClose(earlier: Application, later: Application): Finding[] {
  const gap = gapBetween(earlier.product, later.product)
  if (!gap) return []
  const days = daysBetween(earlier.spray.date, later.spray.date)
  if (days > 0 && days >= gap.days) return []
  const when =
    earlier.spray === later.spray ? 'in one tank with' : days === 0 ? 'on the same day as' : `${days} d after`
  const whose = gap.label
    ? mention(gap.label.product, ['keep_apart', gap.label.index, 'gap'])
    : 'UC IPM Pest Notes 7494; the label decides'
  return [
    findingAt(later.spray, productPath(later), {
      name: 'kept-apart',
      level: gap.label ? 'error' : 'warning',
      message: `${later.product.id} ${when} ${earlier.product.id} (${mention(earlier.spray, ['products', earlier.part])}); ${gap.days === 0 ? 'never on the same day' : `${gap.days} d between them, over on ${addDays(earlier.spray.date, gap.days)}`} (${whose})`,
      help: 'before spraying, wait for that day; after it, correct the entry if mistyped, else look for burnt leaves',
    }),
  ]
}
