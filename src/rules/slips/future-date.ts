import type { Placed } from '../../ledger/read/source.ts'
import { ENTRY_CALLED, SEASON_KINDS } from '../../records/kinds.ts'
import { findingAt, type Rule } from '../rule.ts'

/** An entry dated after the day of the report cannot have happened yet. */
export const futureDate: Rule = {
  name: 'future-date',
  about: {
    what: 'An entry, a stock count or a calibration is dated after the day of the report (`--as-of`, else today). Only what has happened belongs in the records. Reports leave the entry out until that day.',
    source: 'own rule: the record is of things done',
    basis: 'own',
  },
  check({ ledger, asOf, seasons }) {
    const entries = SEASON_KINDS.flatMap((kind) =>
      ledger[kind]
        .filter((entry) => seasons.has(entry.season) && entry.date > asOf)
        .map((entry) =>
          findingAt(entry, ['date'], {
            message: `this ${ENTRY_CALLED[kind]} is dated ${entry.date}, in the future on ${asOf}`,
            help: 'correct the date, or record it when it is done',
          }),
        ),
    )
    const told = (record: Placed<object>, key: string, date: string | undefined, what: string) =>
      date === undefined || date <= asOf
        ? []
        : findingAt(record, [key], {
            message: `${what} ${date}, in the future on ${asOf}`,
            help: 'correct the date',
          })
    return [
      ...entries,
      ...[...ledger.products.values()].flatMap((one) =>
        told(one, 'stocked', one.stocked, 'the stock was counted on'),
      ),
      ...[...ledger.sprayers.values()].flatMap((one) =>
        told(one, 'calibrated', one.calibrated, 'the sprayer was calibrated on'),
      ),
    ]
  },
}
