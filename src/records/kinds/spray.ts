import * as z from 'zod'
import { atFirstUse, oneOrMore, raiseAt } from '../fields/field.ts'
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
  timeRange,
} from '../fields/fields.ts'
import { target } from '../fields/label-fields.ts'
import { CONCENTRATION_UNITS, RATE_UNITS } from '../units.ts'

const tankPart = atFirstUse(() =>
  z
    .strictObject({
      product: id('id of the product'),
      rate: quantity(RATE_UNITS, 'dose per ground area, or per leaf wall area', 10_000, '3 kg/ha').optional(),
      amount: quantity(['kg', 'L'], 'product used in all', 100_000, '1.35 kg').optional(),
      concentration: quantity(CONCENTRATION_UNITS, 'dose for a volume of spray', 10_000, '10 g/L').optional(),
      for: oneOrMore(target('disease or pest'), 'what it is against').optional(),
    })
    .superRefine((part, context) => {
      const doses = (['rate', 'amount', 'concentration'] as const).filter((key) => part[key] !== undefined)
      if (doses.length === 1) return
      raiseAt(context, doses.length > 1 ? [doses[1]!] : [], {
        name: doses.length === 0 ? 'missing-key' : 'two-doses',
        message: doses.length === 0 ? 'the product has no dose' : 'the product has more than one dose',
        help: 'write one of `rate`, `amount` or `concentration`',
      })
    }),
)

const sprayWeather = atFirstUse(() =>
  z.strictObject({
    wind: measure('m/s', 'wind speed', 0, 60, '1.8 m/s').optional(),
    from: text('where the wind came from', ['SW']).optional(),
    temperature: measure('C', 'air temperature', -20, 50, '17 C').optional(),
    humidity: measure('%', 'relative humidity', 0, 100, '70 %').optional(),
    sky: text('clouds, dew, inversion', ['overcast']).optional(),
  }),
)

/** What an adviser or the authority decided after a spray that was over its label. */
const clearance = atFirstUse(() =>
  z.strictObject({
    on: date('day on which it was said'),
    by: text('adviser or authority', ['R. Vos, adviser']),
    pick_from: date('first day of picking that they named'),
    enter_from: date(
      'first day on which people may enter, where they named one; else that of picking',
    ).optional(),
  }),
)

/** A spray: `seasons/YEAR/sprays`. */
export const spray = atFirstUse(() =>
  z
    .strictObject({
      date: date('day of spraying'),
      time: timeRange('from when to when').optional(),
      blocks: oneOrMore(id('id of a block'), 'blocks sprayed'),
      rows: range([''], 'rows sprayed, where not all', 1, 10_000, '1-8').optional(),
      vines: count('vines sprayed, where not all', 1, 1_000_000, [12]).optional(),
      share: measure('%', 'share of the blocks sprayed, where not all', 0.01, 100, '50 %').optional(),
      sprayer: id('id of the sprayer').optional(),
      water: quantity(['L/ha', 'L'], 'water per ground area, or in all', 1_000_000, '300 L/ha').optional(),
      dilute: measure(
        'L/ha',
        'volume that would wet to run-off, for concentrate spraying',
        10,
        10_000,
        '1500 L/ha',
      ).optional(),
      products: z.array(tankPart()).min(1, 'the list of products is empty'),
      stage: growthStage('growth stage').optional(),
      weather: sprayWeather().optional(),
      operator: text('who sprayed', ['R.']).optional(),
      certificate: text('certificate number of the operator').optional(),
      cleared: clearance().optional(),
      method: choice(['area', 'spot', 'band', 'closed-space'], 'type of use').optional(),
      note: note().optional(),
    })
    .superRefine((entry, context) => {
      const parts = (['rows', 'vines', 'share'] as const).filter((key) => entry[key] !== undefined)
      if (parts.length > 1)
        raiseAt(context, [parts[1]!], {
          name: 'two-extents',
          message: `the entry says how much was treated twice: \`${parts.join('` and `')}\``,
          help: 'write one of `rows`, `vines` or `share`',
        })
      if (entry.vines !== undefined && (entry.blocks?.length ?? 0) > 1)
        raiseAt(context, ['vines'], {
          name: 'two-extents',
          message: 'a number of vines says nothing of several blocks',
          help: 'write one entry for each block',
        })
      entry.products?.forEach((part, index) => {
        if (part?.concentration === undefined || entry.water !== undefined) return
        raiseAt(context, ['products', index, 'concentration'], {
          name: 'missing-key',
          message: 'a dose for a volume of spray needs `water`',
          help: 'write `water: 300 L/ha`, or the total in L',
        })
      })
    }),
)

export type Spray = z.output<ReturnType<typeof spray>>
export type TankPart = Spray['products'][number]
