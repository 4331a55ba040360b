import {
  applications,
  byBlockAndProduct,
  COUNTED_AS_ONE,
  dosePath,
  groupedBy,
  isJudged,
  isLoose,
  type JudgedLedger,
  productPath,
  statedTargets,
  surelyMeet,
} from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import { shortestInterval } from '../../facts/spraying/label.ts'
import { OVER_LABEL } from '../../facts/spraying/over-label.ts'
import { countOver, runningSums, totalOver, withinInterval } from '../../facts/spraying/season-limits.ts'
import type { Path } from '../../ledger/read/source.ts'
import { daysBetween } from '../../records/date.ts'
import { type Found, findingAt, mention, type Rule, YOUR_LABEL } from '../rule.ts'

const HELP = `delete any wrong entry. If it was really sprayed, ${OVER_LABEL}. Use it no more this season`

/** More applications of a product in a season, or more of it, than the label allows. */
export const tooManyApplications: Rule = {
  name: 'too-many-applications',
  what: 'A product was sprayed more often on the same vines in a season than the label allows. That is for one use or in total, or by the sum of its amounts. Different rows are counted separately. Sprays of some vines or of a share count as on the same vines, since nobody can tell.',
  limits: "The limits are the product's `max_per_season` and `max_total`, and `max_per_season` of its uses.",
  ...YOUR_LABEL,
  check: (input) => {
    const seasons = groupedBy(
      applications(input),
      ({ block, product, spray }) => `${block.id} ${product.id} ${spray.season}`,
    )
    return [...seasons.values()].flatMap((list) => overIn(input, list))
  },
}

/** Findings of one block, product and season, in the order of spraying. */
function overIn(input: JudgedLedger, list: readonly Application[]): Found[] {
  const sum = runningSums()
  let loose = false
  return list.flatMap((one) => {
    const { spray, product } = one
    const upTo = sum(one)
    loose ||= isLoose(one)
    if (!isJudged(input, spray)) return []
    const help = loose ? `${HELP}; ${COUNTED_AS_ONE}` : HELP
    const found: Found[] = []
    const tell = (path: Path, message: string) =>
      found.push(findingAt(spray, path, { level: 'error', message, help }))
    const count = countOver(one, upTo)
    if (count)
      tell(
        productPath(one),
        `application ${count.count} of ${product.name}${count.whose} this season; the label allows ${count.most} (${mention(product, count.path)})`,
      )
    const total = totalOver(one, upTo)
    if (total)
      tell(
        dosePath(one),
        `${figureText(total.total, total.unit)} of ${product.name} this season; the label allows ${figureText(total.most, total.unit)} in total (${mention(product, ['max_total'])})`,
      )
    return found
  })
}

/** A product used again before the label's minimum interval was over. */
export const intervalTooShort: Rule = {
  name: 'interval-too-short',
  what: 'A product was sprayed again on the same vines sooner than the label allows. Sprays on the same day, or on different rows, do not count as an interval. Sprays of some vines or a share may have met the same vines or others. That is a warning, or an error where together they are more than the block.',
  limits: "The limit is the lower end of `interval` in the product's `uses`.",
  ...YOUR_LABEL,
  check: (input) =>
    byBlockAndProduct(applications(input)).flatMap((list) =>
      list.flatMap((one, index) => {
        if (!isJudged(input, one.spray)) return []
        const interval = shortestInterval(one.product, statedTargets(one))
        const near = withinInterval(list, index)?.before ?? []
        const sure = near.findLast((other) => surelyMeet(other, one))
        const last = sure ?? near.at(-1)
        if (!interval || !last) return []
        const days = daysBetween(last.spray.date, one.spray.date)
        return findingAt(one.spray, ['date'], {
          level: sure ? 'error' : 'warning',
          message: `${one.product.name} again after ${days} d${sure ? '' : ', perhaps on other vines'} (${mention(last.spray, ['date'])}). The label needs at least ${interval.days} d (${mention(one.product, interval.path)})`,
          help: sure
            ? 'correct the date if mistyped; else wait longer before the next and ask your adviser'
            : COUNTED_AS_ONE,
        })
      }),
    ),
}
