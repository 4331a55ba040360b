import { applications, groupedBy, isJudged, judged, overlap, productPath } from '../../facts/judged.ts'
import { productNames } from '../../facts/names.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import { gapBetween, incompatible, OIL_AND_SULPHUR } from '../../facts/spraying/keep-apart.ts'
import { addDays, daysBetween } from '../../records/date.ts'
import type { Product } from '../../records/kinds/product.ts'
import { longDate } from '../../records/spoken-date.ts'
import { type Found, findingAt, mention, type Rule, YOUR_LABEL } from '../rule.ts'

/** Products used too close together that burn leaves or spoil each other. */
export const keptApart: Rule = {
  name: 'kept-apart',
  what: 'Products that a label keeps apart were used in one tank, or on the same vines within the gap. It applies in both directions. They may follow on the day the gap ends. Where neither label says anything, oil within 14 days of sulphur or captan is a warning.',
  limits:
    "The product's `keep_apart` names a product, an active or a kind, and the gap. Between oil and sulphur or captan, the gap is 14 d.",
  source:
    "your label, as copied into the product's record; oil and sulphur: UC IPM Pest Notes 7494, year not known",
  basis: 'read',
  check: (input) => {
    const reach = longestGap([...input.ledger.products.values()])
    return [...groupedBy(applications(input), ({ block }) => block.id).values()].flatMap((list) =>
      list.flatMap((later, index) => {
        const { spray, product } = later
        if (!isJudged(input, spray)) return []
        return list
          .slice(firstWithin(list, index, reach), index)
          .filter((earlier) => earlier.product.id !== product.id && overlap(earlier.spray, spray))
          .flatMap((earlier) => tooClose(earlier, later))
      }),
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

function tooClose(earlier: Application, later: Application): Found | [] {
  const gap = gapBetween(earlier.product, later.product)
  if (!gap) return []
  const days = daysBetween(earlier.spray.date, later.spray.date)
  if (days > 0 && days >= gap.days) return []
  const when =
    earlier.spray === later.spray ? 'in one tank with' : days === 0 ? 'on the same day as' : `${days} d after`
  const whose = gap.label
    ? mention(gap.label.product, ['keep_apart', gap.label.index, 'gap'])
    : 'UC IPM Pest Notes 7494; the label decides'
  return findingAt(later.spray, productPath(later), {
    level: gap.label ? 'error' : 'warning',
    message: `${later.product.name} ${when} ${earlier.product.name} (${mention(earlier.spray, ['products', earlier.part])}); ${gap.days === 0 ? 'never on the same day' : `${gap.days} d between them, over on ${longDate(addDays(earlier.spray.date, gap.days))}`} (${whose})`,
    help: 'before spraying, wait for that day; after it, correct the entry if mistyped, else look for burnt leaves',
  })
}

/** Products in one tank that spoil each other or burn the vine, though no label says so. */
export const notToBeMixed: Rule = {
  name: 'not-to-be-mixed',
  what: 'Two products in one tank that are known not to mix. That is copper with a phosphonate or captan, or bicarbonate with something acid. What the labels keep apart is in `kept-apart`.',
  source:
    'copper with phosphonates or captan: Shane & Sundin, Michigan State University 2011; bicarbonate with acid: common practice, no source',
  basis: 'common practice',
  check: (input) =>
    judged(input, 'sprays').flatMap((spray) => {
      const parts = spray.products.map(({ product }) => input.ledger.products.get(product))
      return parts.flatMap((later, index) =>
        parts.slice(0, index).flatMap((earlier): Found | [] => {
          const against = earlier && later && earlier.id !== later.id ? incompatible(earlier, later) : null
          if (!against) return []
          return findingAt(spray, ['products', index, 'product'], {
            message: `do not mix ${earlier!.name} and ${later!.name}: ${against.why} (${against.source})`,
            help: 'spray them on different days; if they were sprayed together, look for burnt leaves. The labels decide',
          })
        }),
      )
    }),
}

/** A product used without the partner that its label needs. */
export const needsPartner: Rule = {
  name: 'needs-partner',
  what: 'The label allows this product only together with a partner, for resistance or because it does not work alone. No partner was in the tank.',
  limits: "One of the products listed in the product's `with` is enough.",
  ...YOUR_LABEL,
  check: (input) =>
    judged(input, 'sprays').flatMap((spray) =>
      spray.products.flatMap(({ product: id }, index) => {
        const product = input.ledger.products.get(id)
        const partners = product?.with
        if (!product || !partners) return []
        if (spray.products.some(({ product }) => partners.includes(product))) return []
        return findingAt(spray, ['products', index, 'product'], {
          level: 'error',
          message: `the label of ${product.name} needs ${productNames(input.ledger, partners)} in the same tank (${mention(product, ['with'])})`,
          help: 'add the partner to the entry if it was in the tank; else never use it alone',
        })
      }),
    ),
}
