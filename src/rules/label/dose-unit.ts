import { applications, dosePath, isJudged } from '../../facts/judged.ts'
import { once } from '../../facts/say.ts'
import { limitsFor } from '../../facts/spraying/label.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** A dose by mass of a product that its label measures by volume, or the other way round. */
export const doseUnit: Rule = {
  name: 'dose-unit',
  about: {
    what: "The entry gives the product in kg and its label in L, or the other way round, so the dose can't be compared with the label.",
    source: 'own rule: one product is measured in one way',
    basis: 'own',
  },
  check: (book) =>
    once(
      applications(book)
        .filter(({ spray, perHa }) => isJudged(book, spray) && perHa !== null)
        .flatMap((one) => {
          const typed = one.perHa!.unit.startsWith('kg') ? 'kg' : 'L'
          const doses = limitsFor(one.product, undefined).filter(({ unit }) => unit !== '%')
          const units = new Set(doses.map(({ unit }) => (/^k?g/.test(unit) ? 'kg' : 'L')))
          if (units.size !== 1 || units.has(typed)) return []
          return [
            findingAt(one.spray, dosePath(one), {
              name: 'dose-unit',
              level: 'error',
              message: `${one.product.id} is entered in ${typed}, but its label is in ${[...units][0]} (${mention(one.product, doses[0]!.path)})`,
              help: 'write the dose in the unit of the label, so that it can be checked',
            }),
          ]
        }),
    ),
}
