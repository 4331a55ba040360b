import * as z from 'zod'
import { LAST_YEAR } from '../date.ts'
import { atFirstUse, raiseAt } from '../fields/field.ts'
import { count, id, measure, note, text } from '../fields/fields.ts'
import { style, targets, thresholds } from './block-fields.ts'

/** A block of vines of one variety: `blocks/ID.yaml`. */
export const block = atFirstUse(() =>
  z
    .strictObject({
      name: text('name of the block', ['Top Terrace']),
      variety: id('id of its variety'),
      rows: count('number of rows', 1, 10_000, [24]).optional(),
      row_length: measure('m', 'length of a row', 1, 10_000, '85 m').optional(),
      row_spacing: measure('m', 'from row to row', 0.5, 10, '2.2 m'),
      vine_spacing: measure('m', 'from vine to vine in the row', 0.2, 10, '1.2 m'),
      vines: count('number of vines as planted, missing ones too', 1, 1_000_000, [180]).optional(),
      missing: count('vines missing or dead', 0, 1_000_000, [31]).optional(),
      area: measure(
        'ha',
        'area under vines, where it is not rows x row length x row spacing, or vines x both spacings',
        0.0001,
        10_000,
        '0.45 ha',
      ).optional(),
      boundary: text('GeoJSON file with its outline, beside this file', ['top-terrace.geojson']).optional(),
      planted: count('year of planting', 1700, LAST_YEAR, [2016]).optional(),
      canopy: z
        .strictObject({
          height: measure('m', 'height of the leaf wall', 0.1, 6, '1.2 m').optional(),
          width: measure('m', 'width of the leaf wall', 0.05, 6, '0.5 m').optional(),
        })
        .optional(),
      style: style().optional(),
      targets: targets().optional(),
      thresholds: thresholds().optional(),
      location: text('parcel number or other official place', ['parcel 118/2']).optional(),
      note: note().optional(),
    })
    .superRefine((one, context) => {
      const isMeasured = one.rows !== undefined && one.row_length !== undefined
      if (one.area === undefined && one.vines === undefined && !isMeasured) {
        raiseAt(context, [], {
          name: 'missing-key',
          message: 'the size of the block is missing',
          help: 'write `vines: 180`, or `rows` and `row_length`, or `area: 0.1 ha`',
        })
      }
    }),
)

export type Block = z.output<ReturnType<typeof block>>
