import { byPlace, type Finding } from '../ledger/finding.ts'
import { enteredTwice } from './entered-twice.ts'
import { futureDate } from './future-date.ts'
import { insideDaysBeforeHarvest } from './inside-days-before-harvest.ts'
import { overConcentration } from './over-concentration.ts'
import { overRate } from './over-rate.ts'
import type { Book, Rule } from './rule.ts'

/** Every rule, in the order in which they are run. */
export const RULES: readonly Rule[] = [
  futureDate,
  enteredTwice,
  overRate,
  overConcentration,
  insideDaysBeforeHarvest,
]

/** Runs every rule over the book, and returns what they find in the order of the files. */
export function judge(book: Book): Finding[] {
  return RULES.flatMap((rule) => rule.check(book)).sort(byPlace)
}
