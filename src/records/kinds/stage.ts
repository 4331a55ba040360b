import * as z from 'zod'
import { atFirstUse } from '../fields/field.ts'
import { date, growthStage, id, measure, note, text } from '../fields/fields.ts'

/** A growth stage seen: `seasons/YEAR/stages`. */
export const stage = atFirstUse(() =>
  z.strictObject({
    date: date('day on which it was seen'),
    block: id('id of the block'),
    stage: growthStage('growth stage'),
    share: measure('%', 'share of the vines at this stage', 0, 100, '10 %').optional(),
    shoots: measure('cm', 'mean length of the shoots', 0, 1000, '12 cm').optional(),
    who: text('who saw it').optional(),
    note: note().optional(),
  }),
)
