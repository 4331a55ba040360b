import * as z from 'zod'
import { atFirstUse } from '../fields/field.ts'
import { count, date, id, measure, note, number, range, text, timeRange } from '../fields/fields.ts'

/** Work in the rows: `seasons/YEAR/work`. */
export const work = atFirstUse(() =>
  z.strictObject({
    date: date('day of work'),
    time: timeRange('from when to when').optional(),
    block: id('id of the block'),
    job: text('what was done', ['leaf removal']),
    hours: number('hours of work, all people together', 0, 10_000, [6]).optional(),
    people: count('people', 1, 1000, [2]).optional(),
    rows: range([''], 'rows done, where not all', 1, 10_000, '1-8').optional(),
    prunings: measure(
      'kg',
      'prunings cut from one vine, the mean of those weighed',
      0.001,
      50,
      '0.6 kg',
    ).optional(),
    water: measure('mm', 'irrigation given', 0, 500, '12 mm').optional(),
    who: text('who worked').optional(),
    note: note().optional(),
  }),
)
