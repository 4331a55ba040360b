import type { Rule } from '../rule.ts'
import { overLimit } from './dose-breach.ts'

/** More product in the spray than the label allows. */
export const overConcentration: Rule = {
  name: 'over-concentration',
  about: {
    what: 'The product per litre of spray is above the label. In concentrate spraying (`dilute` is written) the label means the dilute volume, and the dose is converted to it.',
    limits: "the product's `uses`: `concentration`",
    source:
      "your label, as copied into the product's record; dilute volume: AWRI, Spray application in vineyards, year not known",
    basis: 'read',
  },
  check: (book) => overLimit(book, 'over-concentration', ['concentration']),
}
