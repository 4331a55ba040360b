import {
  applications,
  type Book,
  byBlockAndProduct,
  COUNTED_AS_ONE,
  dosePath,
  groupedBy,
  isJudged,
  isLoose,
  productPath,
} from '../../facts/judged.ts'
import { say } from '../../facts/say.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import { OVER_LABEL } from '../../facts/spraying/over-label.ts'
import { type Applied, countOver, runningSums, totalOver } from '../../facts/spraying/season-limits.ts'
import { type Found, findingAt, mention, type Rule } from '../rule.ts'

const HELP = `delete any wrong entry. If it was really sprayed, ${OVER_LABEL}. Use it no more this season`

/** More applications of a product in a season, or more of it, than the label allows. */
export const tooManyApplications: Rule = {
  name: 'too-many-applications',
  about: {
    what: 'A product was sprayed more often on the same vines in a season than the label allows. That is for one use or in total, or by the sum of its amounts. Different rows are counted separately. Sprays of some vines or of a share count as on the same vines, since nobody can tell.',
    limits:
      "The limits are the product's `max_per_season` and `max_total`, and `max_per_season` of its uses.",
    source: "your label, as copied into the product's record",
    basis: 'own',
  },
  check: (book) =>
    byBlockAndProduct(applications(book)).flatMap((all) =>
      [...groupedBy(all, ({ spray }) => String(spray.season)).values()].flatMap((list) => overIn(book, list)),
    ),
}

/** Findings of one block, product and season, in the order of spraying. */
function overIn(book: Book, list: readonly Application[]): Found[] {
  const sum = runningSums()
  let loose = false
  return list.flatMap((one) => {
    const upTo = sum(one)
    loose ||= isLoose(one)
    const help = loose ? `${HELP}; ${COUNTED_AS_ONE}` : HELP
    return isJudged(book, one.spray) ? [overCount(one, upTo, help), overTotal(one, upTo, help)].flat() : []
  })
}

function overCount(one: Application, upTo: Applied, help: string): Found | [] {
  const over = countOver(one, upTo)
  if (!over) return []
  return findingAt(one.spray, productPath(one), {
    level: 'error',
    message: `application ${over.count} of ${one.product.id}${over.whose} this season; the label allows ${over.most} (${mention(one.product, over.path)})`,
    help,
  })
}

function overTotal(one: Application, upTo: Applied, help: string): Found | [] {
  const over = totalOver(one, upTo)
  if (!over) return []
  return findingAt(one.spray, dosePath(one), {
    level: 'error',
    message: `${say(over.total, over.unit)} of ${one.product.id} this season; the label allows ${say(over.most, over.unit)} in total (${mention(one.product, ['max_total'])})`,
    help,
  })
}
