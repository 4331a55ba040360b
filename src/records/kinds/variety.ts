import * as z from 'zod'
import { DISEASES } from '../disease.ts'
import { atFirstUse, underEach } from '../fields/field.ts'
import { choice, note, number, range, text } from '../fields/fields.ts'
import { style, targets, thresholds } from './block-fields.ts'

const proneness = () => choice(['low', 'medium', 'high'], 'susceptibility')

/** A grape variety: `varieties/ID.yaml`. */
export const variety = atFirstUse(() =>
  z.strictObject({
    name: text('name of the variety', ['Solaris']),
    colour: choice(['white', 'red', 'rose', 'grey'], 'colour of the berries'),
    susceptibility: z.strictObject(underEach(DISEASES, () => proneness().optional())).optional(),
    style: style().optional(),
    targets: targets().optional(),
    thresholds: thresholds().optional(),
    heat: z
      .strictObject({
        flowering: number('degree days above 0 °C to full flowering', 100, 6000, [1180]).optional(),
        veraison: number('degree days above 0 °C to 50 % veraison', 500, 8000, [2300]).optional(),
        sugar: z
          .record(
            z.string().regex(/^\d{2,3}$/, 'a key here is grams of sugar per litre, like 200'),
            number('degree days above 0 °C to that sugar', 500, 9000, [2750]),
          )
          .optional(),
        source: text('where these figures were read, with the year').optional(),
      })
      .optional(),
    after_veraison: range(['d'], 'days from veraison to ripeness', 5, 150, '30-60 d').optional(),
    note: note().optional(),
  }),
)

export type Variety = z.output<ReturnType<typeof variety>>
