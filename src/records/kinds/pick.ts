import * as z from 'zod'
import { atFirstUse } from '../fields/field.ts'
import { count, date, id, measure, note, number, timeRange } from '../fields/fields.ts'
import { fruitWeight } from '../fields/fruit-weight.ts'

/** What was harvested: `seasons/YEAR/picks`. */
export const pick = atFirstUse(() =>
  z.strictObject({
    date: date('day of picking'),
    time: timeRange('from when to when').optional(),
    block: id('id of the block'),
    weight: fruitWeight('fruit picked', '1820 kg'),
    people: count('pickers', 1, 1000, [6]).optional(),
    hours: number('hours that they picked', 0.1, 48, [5.5]).optional(),
    brix: number('sugar at the press, degrees Brix', 0, 45, [20.8]).optional(),
    ph: number('pH at the press', 2.4, 4.8, [3.2]).optional(),
    ta: measure('g/L', 'titratable acidity at the press, as tartaric acid', 0.5, 60, '8.1 g/L').optional(),
    sorted_out: fruitWeight('fruit thrown away', '40 kg', 0).optional(),
    crates: count('crates filled', 0, 1_000_000).optional(),
    juice: measure('L', 'juice pressed', 0, 10_000_000, '1100 L').optional(),
    rest: measure('%', 'share of the block that still hangs', 0, 100, '0 %').optional(),
    note: note().optional(),
  }),
)
