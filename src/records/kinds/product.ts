import * as z from 'zod'
import { asText, atFirstUse, field, oneOrMore, raiseAt } from '../fields/field.ts'
import {
  choice,
  count,
  date,
  growthStage,
  id,
  measure,
  note,
  quantity,
  range,
  text,
} from '../fields/fields.ts'
import {
  actionGroup,
  formulation,
  type LabelDose,
  labelDose,
  reEntry,
  target,
} from '../fields/label-fields.ts'
import type { Range } from '../quantity.ts'
import { CONCENTRATION_UNITS, RATE_UNITS } from '../units.ts'

/** Ways in which a product acts on a disease. */
export const ACTS = ['protectant', 'contact', 'curative', 'systemic'] as const

const price = (description: string) =>
  field(
    (value, refuse) => {
      const written = asText(value, refuse)
      const match = /^(\d+(?:\.\d+)?)\s*([A-Z]{3})\s*\/\s*(kg|L)$/.exec(written.trim())
      if (match) return { value: Number(match[1]), currency: match[2]!, per: match[3] as 'kg' | 'L' }
      return refuse('not-a-price', `\`${written}\` is not a price`, 'write it as `4.20 EUR/kg` or `18 EUR/L`')
    },
    { type: 'string', description, examples: ['4.20 EUR/kg'] },
  )

const use = atFirstUse(() =>
  z
    .strictObject({
      against: target('disease or pest that the label names'),
      rate: labelDose(
        RATE_UNITS,
        'dose per ground area, or per leaf wall area',
        0,
        1000,
        '2-6 kg/ha',
      ).optional(),
      concentration: labelDose(
        CONCENTRATION_UNITS,
        'dose for a volume of spray',
        0,
        1000,
        '4-12 g/L',
      ).optional(),
      dilute: choice(['yes', 'no'], 'whether the concentration is meant for spraying to run-off').optional(),
      max_rate: quantity(
        ['kg/ha', 'L/ha'],
        'most per ground area, whichever way the dose is given',
        1000,
        '5 kg/ha',
      ).optional(),
      interval: range(['d'], 'days between applications', 0, 365, '7-14 d').optional(),
      max_per_season: count('most applications a season for this use', 1, 100, [4]).optional(),
      before_harvest: measure('d', 'pre-harvest interval (PHI) of this use', 0, 365, '21 d').optional(),
      stages: range([''], 'growth stages in which the label allows it', 0, 99, '13-81').optional(),
    })
    .superRefine((one, context) => {
      if (one.rate === undefined && one.concentration === undefined) {
        raiseAt(context, [], {
          name: 'missing-key',
          message: 'the use has neither `rate` nor `concentration`',
          help: 'copy the dose from the label',
        })
      }
      const beside = perSeasonOf(one)
      if (beside !== undefined && one.max_per_season !== undefined && beside !== one.max_per_season)
        raiseAt(context, ['max_per_season'], {
          name: 'impossible-value',
          message: `the dose says at most ${beside} a season, and \`max_per_season\` says ${one.max_per_season}`,
          help: 'keep the one that the label prints',
        })
    })
    .transform(({ rate, concentration, ...rest }) => {
      const perSeason = rest.max_per_season ?? perSeasonOf({ rate, concentration })
      return {
        ...rest,
        ...(rate ? { rate: doseOf(rate) } : {}),
        ...(concentration ? { concentration: doseOf(concentration) } : {}),
        ...(perSeason === undefined ? {} : { max_per_season: perSeason }),
      }
    }),
)

type Doses = { rate?: LabelDose | undefined; concentration?: LabelDose | undefined }

/** The most applications a season given with a dose. */
const perSeasonOf = ({ rate, concentration }: Doses) => rate?.perSeason ?? concentration?.perSeason

const doseOf = ({ low, high, unit }: LabelDose): Range => ({ low, high, unit })

/** A spray product, copied from its label: `products/ID.yaml`. */
export const product = atFirstUse(() =>
  z.strictObject({
    name: text('trade name', ['Sulphur 80']),
    form: formulation('formulation code'),
    kind: text('fungicide, insecticide, herbicide, oil, adjuvant, biological ...', ['fungicide']),
    nature: choice(
      ['synthetic', 'mineral', 'biological'],
      'what it is made of, where reports should tell it apart',
    ).optional(),
    actives: z
      .array(
        z.strictObject({
          name: text('active substance', ['sulphur']),
          content: quantity(['g/kg', 'g/L', '%'], 'content of the product', 1000, '800 g/kg').optional(),
          group: actionGroup('mode-of-action group').optional(),
          as: choice(
            ['metal', 'compound'],
            'of copper: whether the content is of the metal (as labels state it) or of the compound named',
          ).optional(),
        }),
      )
      .min(1, 'the list of active substances is empty'),
    authorisation: z
      .strictObject({
        number: text('authorisation or registration number', ['DEMO-0001']).optional(),
        from: date('first day of use').optional(),
        until: date('last day of use').optional(),
      })
      .optional(),
    uses: z.array(use()).min(1, 'the list of uses is empty'),
    water: range(['L/ha'], 'water per ground area', 0, 10_000, '200-1000 L/ha').optional(),
    before_harvest: measure('d', 'pre-harvest interval (PHI)', 0, 365, '21 d').optional(),
    re_entry: reEntry('re-entry interval (REI): time until people may enter').optional(),
    max_per_season: count('most applications a season', 1, 100, [8]).optional(),
    max_total: quantity(['kg/ha', 'L/ha'], 'most product in a season', 1000, '16 kg/ha').optional(),
    max_in_row: count('most consecutive applications of its mode-of-action group', 1, 100, [3]).optional(),
    protects: measure('d', 'days that it protects', 0, 120, '10 d').optional(),
    acts: oneOrMore(
      choice(ACTS, 'protectant (before infection), contact (on what it touches), curative, systemic'),
      'how it acts, by its label',
    ).optional(),
    cures: measure('h', 'time after infection in which it still acts', 1, 240, '48 h').optional(),
    systemic: choice(['yes', 'no'], 'whether it moves into new growth').optional(),
    rain: z
      .strictObject({
        fast: measure('h', 'time to dry before rain', 0, 96, '2 h').optional(),
        washed_off: measure('mm', 'rain that washes it off', 0.1, 500, '25 mm').optional(),
      })
      .optional(),
    temperature: range(['C'], 'air temperature in which it may be used', -10, 50, '15-30 C').optional(),
    wind: measure('m/s', 'most wind that the label allows', 0, 30, '5 m/s').optional(),
    keep_apart: z
      .array(
        z.strictObject({
          from: text('product id, active or kind', ['oil']),
          gap: measure('d', 'days between them', 0, 365, '14 d'),
        }),
      )
      .optional(),
    with: oneOrMore(id('id of a product'), 'partners without which the label does not allow it').optional(),
    not_after: growthStage('last growth stage in which the label allows it').optional(),
    kept_from_water: measure('m', 'distance to keep from water', 0, 1000, '5 m').optional(),
    hours: text('times of day to which the label restricts its use', ['after bee flight']).optional(),
    price: price('price for a mass or a volume').optional(),
    stock: quantity(['kg', 'L'], 'what is in the store', 1_000_000, '18 kg', 0).optional(),
    stocked: date('day on which the stock was counted').optional(),
    label: text('where these figures were read', ['printed label, 2025-11']).optional(),
    note: note().optional(),
  }),
)

export type Product = z.output<ReturnType<typeof product>>
export type Use = z.output<ReturnType<typeof use>>
