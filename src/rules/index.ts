import { byPlace, type Finding } from '../ledger/finding.ts'
import { futureDate } from './future-date.ts'
import type { Book, Rule } from './rule.ts'

/** Every rule, in the order in which they are run. */
export const RULES: readonly Rule[] = [futureDate]

/** Runs every rule over the book, and returns what they find in the order of the files. */
export function judge(book: Book): Finding[] {
  return RULES.flatMap((rule) => rule.check(book)).sort(byPlace)
}
