import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { applications, isJudged } from '../../facts/judged.ts'
import { say, saySpan } from '../../facts/say.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** More or less water per ground area than the label names. */
export const waterOutsideLabel: Rule = {
  name: 'water-outside-label',
  about: {
    what: "The water per ground area is outside the label's range. A total is first converted to the area treated. A spot spray is not judged by water: its concentration counts.",
    limits: "The limit is the product's `water`.",
    source: "your label, as copied into the product's record",
    basis: 'own',
  },
  check: (book) =>
    applications(book)
      .filter(({ spray }) => isJudged(book, spray) && spray.method !== 'spot')
      .flatMap(({ spray, product, waterPerHa }) => {
        const range = product.water
        if (!range || waterPerHa === null) return []
        if (!exceeds(waterPerHa, range.high) && !exceeds(range.low, waterPerHa)) return []
        return findingAt(spray, ['water'], {
          level: 'error',
          message: `${say(waterPerHa, 'L/ha')} is outside the label of ${product.id}, ${saySpan(range)} (${mention(product, ['water'])})`,
          help: `if mistyped, correct it here or in ${mention(product, ['water'])}; else ask whether the label allows this volume`,
        })
      }),
}
