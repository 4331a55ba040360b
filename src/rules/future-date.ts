import { SEASON_KINDS, SINGULAR } from '../records/kinds.ts'
import { findingAt, type Rule } from './rule.ts'

/** An entry dated after the day on which the book is looked at cannot have happened yet. */
export const futureDate: Rule = {
  name: 'future-date',
  about: {
    what: 'An entry is dated after the day on which the book is looked at (`--as-of`, else today). What has not happened cannot be in the record; reports leave it out until its day comes.',
    source: 'own rule: the record is of things done',
    basis: 'own',
  },
  check({ ledger, asOf, seasons }) {
    return SEASON_KINDS.flatMap((kind) =>
      ledger[kind]
        .filter((entry) => seasons.has(entry.season) && entry.date > asOf)
        .map((entry) =>
          findingAt(entry, ['date'], {
            name: 'future-date',
            level: 'warning',
            message: `this ${SINGULAR[kind]} is dated ${entry.date}, which is still to come on ${asOf}`,
            help: 'correct the date; a plan is not an entry',
          }),
        ),
    )
  },
}
