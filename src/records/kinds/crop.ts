import * as z from 'zod'
import { atFirstUse, oneOrMore, raiseAt } from '../fields/field.ts'
import { choice, count, date, id, measure, note, number, range, text } from '../fields/fields.ts'

/** Bunch counts and weights: `seasons/YEAR/crop`. */
export const crop = atFirstUse(() =>
  z
    .strictObject({
      date: date('day of counting'),
      block: id('id of the block'),
      bunches_per_vine: oneOrMore(
        number('bunches on one vine', 0, 1000, [18]),
        'bunches on each vine counted',
      ).optional(),
      bunch_weight: oneOrMore(
        measure('g', 'weight of one bunch', 0.5, 5000, '48 g'),
        'weight of each bunch weighed',
      ).optional(),
      at: choice(['lag', 'harvest'], 'when: in the lag phase, or near harvest'),
      rows: range([''], 'rows counted, where the block is counted in parts', 1, 10_000, '1-8').optional(),
      part: text('name of the part of the block, where it is counted in parts').optional(),
      vines: count('living vines in that part', 1, 1_000_000).optional(),
      who: text('who counted').optional(),
      note: note().optional(),
    })
    .superRefine((one, context) => {
      if (one.bunches_per_vine === undefined && one.bunch_weight === undefined) {
        raiseAt(context, [], {
          name: 'missing-key',
          message: 'the entry has neither `bunches_per_vine` nor `bunch_weight`',
          help: 'write at least one of them',
        })
      }
    }),
)
