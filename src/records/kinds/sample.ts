import * as z from 'zod'
import { atFirstUse, oneOrMore, raiseAt, truth } from '../fields/field.ts'
import { choice, count, date, id, measure, note, number, text } from '../fields/fields.ts'

const SUGARS = ['brix', 'oechsle', 'baume', 'density'] as const
const MEASURED = [...SUGARS, 'ph', 'ta', 'titration', 'berry_weight', 'seeds', 'skins', 'taste'] as const

/** A berry sample: `seasons/YEAR/samples`. One number, or one reading per berry, bunch or bag. */
export const sample = atFirstUse(() =>
  z
    .strictObject({
      date: date('day of sampling'),
      block: id('id of the block'),
      berries: count('berries in the sample', 1, 100_000, [100]).optional(),
      of: choice(
        ['bag', 'berry', 'bunch', 'vine'],
        'what one reading was taken of, where there are several',
      ).optional(),
      brix: oneOrMore(
        number('degrees Brix', 0, 45, [19.6]),
        'sugar by refractometer, degrees Brix',
      ).optional(),
      oechsle: oneOrMore(
        number('degrees Oechsle', 0, 250, [85]),
        'sugar in degrees Oechsle, in place of brix',
      ).optional(),
      baume: oneOrMore(
        number('degrees Baumé', 0, 30, [11.2]),
        'sugar in degrees Baumé, in place of brix',
      ).optional(),
      density: oneOrMore(
        number('specific gravity 20/20', 0.98, 1.25, [1.085]),
        'specific gravity, in place of brix',
      ).optional(),
      temperature: measure('C', 'temperature of the juice', -5, 50, '26 C').optional(),
      compensated: truth('false where the refractometer does not correct for temperature').optional(),
      ph: oneOrMore(number('pH', 2.4, 4.8, [3.08]), 'pH').optional(),
      ta: oneOrMore(
        measure('g/L', 'titratable acidity as tartaric acid', 0.5, 60, '9.1 g/L'),
        'titratable acidity',
      ).optional(),
      ta_as: choice(['tartaric', 'sulphuric'], 'acid that `ta` is expressed as').optional(),
      end_point: number('pH at which the titration ended', 6, 10, [8.2]).optional(),
      titration: z
        .strictObject({
          sample: measure('mL', 'juice titrated', 0.1, 1000, '10 mL'),
          base: measure('mL', 'base used', 0, 1000, '12.2 mL'),
          normality: number('normality of the base, mol/L', 0.001, 5, [0.1]),
        })
        .optional(),
      berry_weight: measure('g', 'mean weight of a berry', 0.1, 20, '1.35 g').optional(),
      seeds: text('colour and feel of the seeds').optional(),
      skins: text('colour and feel of the skins').optional(),
      taste: text('taste of the berries').optional(),
      fermenting: truth('true where the juice had begun to ferment').optional(),
      who: text('who sampled').optional(),
      instrument: text('which instrument').optional(),
      note: note().optional(),
    })
    .superRefine((one, context) => {
      if (MEASURED.every((key) => one[key] === undefined)) {
        raiseAt(context, [], {
          name: 'missing-key',
          message: 'the sample has no measurement',
          help: `write one of ${MEASURED.join(', ')}`,
        })
      }
      const sugars = SUGARS.filter((key) => one[key] !== undefined)
      if (sugars.length > 1) {
        raiseAt(context, [sugars[1]!], {
          name: 'two-measures',
          message: `sugar is given twice, as ${sugars.join(' and ')}`,
          help: 'keep the one that was measured',
        })
      }
      if (one.ta !== undefined && one.titration !== undefined) {
        raiseAt(context, ['titration'], {
          name: 'two-measures',
          message: 'acidity is given twice, as ta and titration',
          help: 'keep the one that was measured',
        })
      }
    }),
)

export type Sample = z.output<ReturnType<typeof sample>>
