import * as z from 'zod'
import { DISEASES } from '../disease.ts'
import { atFirstUse, raiseAt } from '../fields/field.ts'
import { count, date, growthStage, id, measure, note, range, text } from '../fields/fields.ts'

export const ORGANS = ['bunches', 'leaves', 'shoots', 'vines'] as const

export type Organ = (typeof ORGANS)[number]

const scores = atFirstUse(() => ({
  severity: measure('%', 'mean surface affected over all that were looked at', 0, 100, '3 %').optional(),
  classes: z
    .record(
      z
        .string()
        .regex(
          /^\d{1,3}(?:\.\d+)?(?:-\d{1,3}(?:\.\d+)?)?$/,
          'a class is a percentage or a span of it, like 0 or 5-25',
        ),
      count('how many in this class'),
    )
    .optional(),
}))

const scored = atFirstUse(() => z.strictObject(scores()).optional())

const finding = atFirstUse(() =>
  z
    .strictObject({
      bunches: count('bunches with symptoms').optional(),
      leaves: count('leaves with symptoms').optional(),
      shoots: count('shoots with symptoms').optional(),
      vines: count('vines with symptoms').optional(),
      ...scores(),
      /** The same organ by organ, where more than one was scored. */
      scored: z
        .strictObject({ bunches: scored(), leaves: scored(), shoots: scored(), vines: scored() })
        .optional(),
      rows: range([''], 'rows where it was found', 1, 10_000, '3-5').optional(),
      where: text('where in the block').optional(),
    })
    .meta({ orWord: 'clean' }),
)

/** A scouting round: `seasons/YEAR/scouting`. */
export const scouting = atFirstUse(() =>
  z
    .strictObject({
      date: date('day of the scouting round'),
      block: id('id of the block'),
      looked_at: z.strictObject({
        bunches: count('bunches looked at', 1).optional(),
        leaves: count('leaves looked at', 1).optional(),
        shoots: count('shoots looked at', 1).optional(),
        vines: count('vines looked at', 1).optional(),
      }),
      found: z
        .strictObject({
          powdery: finding().optional(),
          downy: finding().optional(),
          botrytis: finding().optional(),
          'black-rot': finding().optional(),
          phomopsis: finding().optional(),
        })
        // `site-way.ts` turns the word into counts before the entry is checked.
        .meta({ orWord: 'clean' }),
      stage: growthStage('growth stage').optional(),
      rows: range([''], 'rows looked at', 1, 10_000, '1-8').optional(),
      who: text('who looked').optional(),
      note: note().optional(),
    })
    .superRefine((walk, context) => {
      if (walk.looked_at && Object.keys(walk.looked_at).length === 0) {
        raiseAt(context, ['looked_at'], {
          name: 'missing-value',
          message: 'nothing was looked at',
          help: 'write how many, like { bunches: 100 }',
        })
      }
      for (const disease of DISEASES) {
        for (const organ of ORGANS) {
          const looked = walk.looked_at?.[organ]
          if (walk.found?.[disease]?.scored?.[organ] !== undefined && looked === undefined)
            raiseAt(context, ['found', disease, 'scored', organ], {
              name: 'more-than-looked-at',
              message: `no ${organ} are among those looked at`,
              help: `write how many under \`looked_at\`, like { ${organ}: 100 }`,
            })
          const found = walk.found?.[disease]?.[organ]
          if (found === undefined || (looked !== undefined && found <= looked)) continue
          raiseAt(context, ['found', disease, organ], {
            name: 'more-than-looked-at',
            message:
              looked === undefined
                ? `no ${organ} are among those looked at`
                : `${found} ${organ} found of only ${looked} looked at`,
            help:
              looked === undefined
                ? `write how many under \`looked_at\`, like { ${organ}: 100 }`
                : 'check both counts',
          })
        }
      }
    }),
)
