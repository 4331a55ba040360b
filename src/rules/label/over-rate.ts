import type { Rule } from '../rule.ts'
import { overLimit } from './dose-breach.ts'

/** More product per ground area, or for leaf wall, than the label allows. */
export const overRate: Rule = {
  name: 'over-rate',
  about: {
    what: 'The dose per ground area, or per leaf wall, is above the label. A dose written as a total or as a concentration is first converted to the area. Where the label names a maximum per ground area beside another form, both apply.',
    limits: "the product's `uses`: `rate` and `max_rate`",
    source: "your label, as copied into the product's record",
    basis: 'own',
  },
  check: (book) => overLimit(book, 'over-rate', ['rate', 'max_rate']),
}
