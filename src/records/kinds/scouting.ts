import * as z from 'zod'
import { DISEASES } from '../disease.ts'
import { atFirstUse, raiseAt, underEach } from '../fields/field.ts'
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

const finding = atFirstUse(() =>
  z
    .strictObject({
      ...underEach(ORGANS, (organ) => count(`${organ} with symptoms`).optional()),
      ...scores(),
      /** The same organ by organ, where more than one was scored. */
      scored: z.strictObject(underEach(ORGANS, () => z.strictObject(scores()).optional())).optional(),
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
      looked_at: z.strictObject(underEach(ORGANS, (organ) => count(`${organ} looked at`, 1).optional())),
      found: z
        .strictObject(underEach(DISEASES, () => finding().optional()))
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
      const raise = (path: string[], message: string, help: string) =>
        raiseAt(context, ['found', ...path], { name: 'more-than-looked-at', message, help })
      for (const disease of DISEASES) {
        const { scored, ...counted } = walk.found?.[disease] ?? {}
        for (const organ of ORGANS) {
          const looked = walk.looked_at?.[organ]
          const found = counted[organ]
          const notLooked = [
            `no ${organ} are among those looked at`,
            `write how many under \`looked_at\`, like { ${organ}: 100 }`,
          ] as const
          if (scored?.[organ] && looked === undefined) raise([disease, 'scored', organ], ...notLooked)
          if (found === undefined || (looked !== undefined && found <= looked)) continue
          if (looked === undefined) raise([disease, organ], ...notLooked)
          else
            raise(
              [disease, organ],
              `${found} ${organ} found of only ${looked} looked at`,
              'check both counts',
            )
        }
      }
    }),
)
