import * as z from 'zod'
import { atFirstUse } from '../fields/field.ts'
import { count, date, measure, note, text } from '../fields/fields.ts'

/** A sprayer and its calibration: `sprayers/ID.yaml`. */
export const sprayer = atFirstUse(() =>
  z.strictObject({
    name: text('name of the sprayer', ['Mounted air-assisted']),
    tank: measure('L', 'volume of the tank', 0.1, 20_000, '200 L'),
    flow: measure('L/min', 'all nozzles together, measured', 0.01, 1000, '5.5 L/min').optional(),
    calibrated: date('day on which it was measured').optional(),
    water: measure(
      'L/ha',
      'spray that it puts on a hectare, measured on a plot',
      1,
      10_000,
      '400 L/ha',
    ).optional(),
    speed: measure('km/h', 'speed while spraying', 0.1, 30, '5 km/h').optional(),
    rows_per_pass: count('rows treated in one pass', 1, 20, [1]).optional(),
    pressure: measure('bar', 'pressure at which the flow was measured', 0.1, 100, '8 bar').optional(),
    nozzles: z
      .array(measure('L/min', 'flow of one nozzle', 0.001, 100, '0.92 L/min'))
      .min(1)
      .optional(),
    note: note().optional(),
  }),
)

export type Sprayer = z.output<ReturnType<typeof sprayer>>
