import {
  applications,
  byBlockAndProduct,
  COUNTED_AS_ONE,
  isJudged,
  statedTargets,
  surelyMeet,
} from '../../facts/judged.ts'
import { shortestInterval } from '../../facts/spraying/label.ts'
import { withinInterval } from '../../facts/spraying/season-limits.ts'
import { daysBetween } from '../../records/date.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** A product used again before the label's minimum interval was over. */
export const intervalTooShort: Rule = {
  name: 'interval-too-short',
  about: {
    what: 'A product was sprayed again on the same vines sooner than the label allows. Sprays on the same day, or on different rows, do not count as an interval. Sprays of some vines or a share may have met the same vines or others. That is a warning, or an error where together they are more than the block.',
    limits: "The limit is the lower end of `interval` in the product's `uses`.",
    source: "your label, as copied into the product's record",
    basis: 'own',
  },
  check: (book) =>
    byBlockAndProduct(applications(book)).flatMap((list) =>
      list.flatMap((one, index) => {
        if (!isJudged(book, one.spray)) return []
        const interval = shortestInterval(one.product, statedTargets(one))
        const near = withinInterval(list, index)?.before ?? []
        const sure = near.findLast((other) => surelyMeet(other, one))
        const last = sure ?? near.at(-1)
        if (!interval || !last) return []
        const days = daysBetween(last.spray.date, one.spray.date)
        return findingAt(one.spray, ['date'], {
          level: sure ? 'error' : 'warning',
          message: `${one.product.id} again after ${days} d${sure ? '' : ', perhaps on other vines'} (${mention(last.spray, ['date'])}). The label needs at least ${interval.days} d (${mention(one.product, interval.path)})`,
          help: sure
            ? 'correct the date if mistyped; else wait longer before the next and ask your adviser'
            : COUNTED_AS_ONE,
        })
      }),
    ),
}
