import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import {
  applications,
  byBlockAndProduct,
  dosePath,
  groupedBy,
  isJudged,
  overlap,
  productPath,
} from '../../facts/judged.ts'
import { once, say } from '../../facts/say.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** More applications of a product in a season, or more of it, than the label allows. */
export const tooManyApplications: Rule = {
  name: 'too-many-applications',
  about: {
    what: 'A product was sprayed more often on the same vines in a season than the label allows, for one use or in all, or more of it came together than the most that the label names. Rows that are apart are counted apart.',
    limits: "the product's `max_per_season` and `max_total`, and `max_per_season` of its uses",
    source: "the label as copied into the product's record",
    basis: 'read',
  },
  check: (book) =>
    once(
      byBlockAndProduct(applications(book)).flatMap((all) =>
        [...groupedBy(all, ({ spray }) => String(spray.season)).values()].flatMap((list) =>
          list.flatMap((one, index) => {
            if (!isJudged(book, one.spray)) return []
            const before = list.slice(0, index + 1).filter(({ spray }) => overlap(spray, one.spray))
            return [...overCount(one, before), ...overTotal(one, before)]
          }),
        ),
      ),
    ),
}

function overCount(one: Application, before: readonly Application[]): Finding[] {
  const { product } = one
  const limits = [
    {
      most: product.max_per_season,
      path: ['max_per_season'] as (string | number)[],
      count: before.length,
      whose: '',
    },
    ...product.uses.map((use, index) => ({
      most: one.targets.includes(use.against) ? use.max_per_season : undefined,
      path: ['uses', index, 'max_per_season'],
      count: before.filter(({ targets }) => targets.includes(use.against)).length,
      whose: ` against ${use.against}`,
    })),
  ]
  const broken = limits.find(({ most, count }) => most !== undefined && count > most)
  if (!broken) return []
  return [
    findingAt(one.spray, productPath(one), {
      name: 'too-many-applications',
      level: 'error',
      message: `application ${broken.count} of ${product.id}${broken.whose} this season; the label allows ${broken.most} (${mention(product, broken.path)})`,
      help: 'take out what was entered wrongly; else use it no more this season',
    }),
  ]
}

function overTotal(one: Application, before: readonly Application[]): Finding[] {
  const most = one.product.max_total
  if (!most || before.some(({ perHa }) => perHa?.unit !== most.unit)) return []
  const total = before.reduce(
    (sum, { perHa, share }) => sum + perHa!.value * (one.spray.rows ? 1 : (share ?? 1)),
    0,
  )
  if (!exceeds(total, most.value)) return []
  return [
    findingAt(one.spray, dosePath(one), {
      name: 'too-many-applications',
      level: 'error',
      message: `${say(total, most.unit)} of ${one.product.id} this season; the label allows ${say(most.value, most.unit)} in all (${mention(one.product, ['max_total'])})`,
      help: 'take out what was entered wrongly; else use it no more this season',
    }),
  ]
}
