import { applications, byBlockAndProduct, isJudged, overlap, statedTargets } from '../../facts/judged.ts'
import { once } from '../../facts/say.ts'
import { shortestInterval } from '../../facts/spraying/label.ts'
import { daysBetween } from '../../records/date.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** A product again before the label's shortest interval was over. */
export const intervalTooShort: Rule = {
  name: 'interval-too-short',
  about: {
    what: 'A product was sprayed again on the same vines sooner than the label allows. Sprays on the same day, or on different rows, do not count as an interval.',
    limits: "the product's `uses`: the lower end of `interval`",
    source: "your label, as copied into the product's record",
    basis: 'own',
  },
  check: (book) =>
    once(
      byBlockAndProduct(applications(book)).flatMap((list) =>
        list.flatMap((one, index) => {
          if (!isJudged(book, one.spray)) return []
          const interval = shortestInterval(one.product, statedTargets(one))
          const last = list
            .slice(0, index)
            .findLast(({ spray }) => spray.date !== one.spray.date && overlap(spray, one.spray))
          if (!interval || !last) return []
          const days = daysBetween(last.spray.date, one.spray.date)
          if (days >= interval.days) return []
          return [
            findingAt(one.spray, ['date'], {
              name: 'interval-too-short',
              level: 'error',
              message: `${one.product.id} again after ${days} d (${mention(last.spray, ['date'])}); the label needs at least ${interval.days} d (${mention(one.product, interval.path)})`,
              help: 'correct the date if mistyped; else wait longer before the next and ask your adviser',
            }),
          ]
        }),
      ),
    ),
}
