import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import type { Book } from '../../facts/book.ts'
import { applications, dosePath, groupedBy, isJudged, statedTargets } from '../../facts/judged.ts'
import { above, once, say } from '../../facts/say.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import { doseForms } from '../../facts/spraying/dose-forms.ts'
import { type DoseLimit, inFormOf, limitsFor } from '../../facts/spraying/label.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import { findingAt, mention } from '../rule.ts'

/**
 * Doses above the label's most, in the forms asked for. Where the entry names several targets, or none, the use
 * that allows most decides, since the dose is allowed under it.
 */
export function overLimit(book: Book, name: string, forms: readonly DoseLimit['form'][]): Finding[] {
  return once(
    applications(book)
      .filter(({ spray }) => isJudged(book, spray))
      .flatMap((one) => {
        const limits = limitsFor(one.product, statedTargets(one)).filter(({ form }) => forms.includes(form))
        const dose = doseForms(one)
        const compared = limits.flatMap((limit) => {
          const value = inFormOf(limit, dose)
          return value === null ? [] : [{ limit, value }]
        })
        const kinds = groupedBy(compared, ({ limit }) => `${limit.form} ${limit.unit}`)
        return [...kinds.values()].flatMap((same) => {
          const most = same.reduce((a, b) => (b.limit.high > a.limit.high ? b : a))
          return exceeds(most.value, most.limit.high) ? [over(one, name, most)] : []
        })
      }),
  )
}

function over(
  one: Application,
  name: string,
  { limit, value }: { limit: DoseLimit; value: number },
): Finding {
  const { high, unit, against, path } = limit
  return findingAt(one.spray, dosePath(one), {
    name,
    level: 'error',
    message: `${say(value, unit)} of ${one.product.id} is ${above(value, high)} the label's most, ${say(high, unit)} against ${against} (${mention(one.product, path)})`,
    help: 'correct the entry if it is a slip; if it was sprayed so, do not pick or re-enter before you have asked your adviser',
  })
}
