import { once } from '../../facts/say.ts'
import { findingAt, type Rule } from '../rule.ts'
import { northernMonth } from './northern-month.ts'
import { stageSequences } from './stage-sequence.ts'

/** Months, counted as in the north, in which stages are seen; wide on purpose. */
const MONTHS = [
  { from: 1, to: 9, months: [2, 3, 4, 5] },
  { from: 11, to: 19, months: [3, 4, 5, 6] },
  { from: 53, to: 57, months: [4, 5, 6, 7] },
  { from: 60, to: 69, months: [5, 6, 7] },
  { from: 71, to: 79, months: [5, 6, 7, 8, 9] },
  { from: 81, to: 89, months: [6, 7, 8, 9, 10, 11] },
  { from: 91, to: 99, months: [8, 9, 10, 11, 12, 1, 2, 3] },
] as const

/** A growth stage at a time of year when no vine is there. */
export const stageOutOfSeason: Rule = {
  name: 'stage-out-of-season',
  about: {
    what: 'The growth stage does not fit the date, like flowering in winter. The months are wide, and shifted by half a year in the south.',
    limits:
      'buds Feb-May, leaves Mar-Jun, flower clusters Apr-Jul, flowering May-Jul, berries May-Sep, ripening Jun-Nov, after harvest Aug-Mar; only beyond 25 degrees of latitude',
    source: 'common practice, no source',
    basis: 'common practice',
  },
  check(book) {
    const { vineyard } = book.ledger
    return once(
      [...stageSequences(book).values()].flat().flatMap(({ entry, date, stage }) => {
        const month = northernMonth(vineyard, date)
        const span = MONTHS.find(({ from, to }) => stage >= from && stage <= to)
        if (month === null || !span || (span.months as readonly number[]).includes(month)) return []
        return [
          findingAt(entry, ['stage'], {
            name: 'stage-out-of-season',
            level: 'warning',
            message: `stage ${stage} on ${date} does not fit the time of year`,
            help: 'check stage and date',
          }),
        ]
      }),
    )
  },
}
