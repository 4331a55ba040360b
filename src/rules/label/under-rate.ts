import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { dosePath, groupedBy, judgedApplications, statedTargets } from '../../facts/judged.ts'
import { once, say } from '../../facts/say.ts'
import { doseForms } from '../../facts/spraying/dose-forms.ts'
import { inFormOf, limitsFor } from '../../facts/spraying/label.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** Less product than the label says is enough. */
export const underRate: Rule = {
  name: 'under-rate',
  about: {
    what: 'The dose is below the label, per ground area or per litre of spray. Too little may not protect, and selects for resistance. Where several targets are named, the highest minimum counts; where none is named, the lowest.',
    limits: "the product's `uses`: the lower end of `rate` and of `concentration`",
    source: "your label, as copied into the product's record",
    basis: 'own',
  },
  check: (book) =>
    once(
      judgedApplications(book).flatMap((one) => {
        const targets = statedTargets(one)
        const dose = doseForms(one)
        return [
          ...groupedBy(
            limitsFor(one.product, targets).filter(
              // A spot is sprayed until it is wet: only what is in the spray can be too little.
              ({ form }) => one.spray.method !== 'spot' || form === 'concentration',
            ),
            ({ form, unit }) => `${form} ${unit}`,
          ).values(),
        ].flatMap((same) => {
          const limit = same.reduce((a, b) => (b.low > a.low === (targets !== undefined) ? b : a))
          const value = inFormOf(limit, dose)
          if (value === null || !exceeds(limit.low, value)) return []
          return [
            findingAt(one.spray, dosePath(one), {
              name: 'under-rate',
              level: 'warning',
              message: `${say(value, limit.unit)} of ${one.product.id} is below the label's minimum, ${say(limit.low, limit.unit)} against ${limit.against} (${mention(one.product, limit.path)})`,
              help: 'correct the entry if mistyped; else expect less protection',
            }),
          ]
        })
      }),
    ),
}
