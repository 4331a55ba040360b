import * as z from 'zod'
import { atFirstUse, raiseAt } from '../fields/field.ts'
import { date, measure, text } from '../fields/fields.ts'

/** A day's weather read by hand, from a max-min thermometer and a rain gauge: `seasons/YEAR/weather`. */
export const weatherDay = atFirstUse(() =>
  z
    .strictObject({
      date: date('day that the readings are of'),
      low: measure('C', 'lowest temperature', -50, 60, '8 C').optional(),
      high: measure('C', 'highest temperature', -50, 60, '21 C').optional(),
      rain: measure('mm', 'rain', 0, 1000, '4 mm').optional(),
      who: text('who read the instruments').optional(),
      note: text('anything else').optional(),
    })
    .superRefine((day, context) => {
      const { low, high, rain } = day
      if (low === undefined && high === undefined && rain === undefined)
        raiseAt(context, ['date'], {
          name: 'missing-value',
          message: 'this day has no reading',
          help: 'write at least one of low, high and rain; what was not read stays out, and unknown',
        })
      if (low !== undefined && high !== undefined && low > high)
        raiseAt(context, ['low'], {
          name: 'impossible-value',
          message: `the lowest temperature, ${low} C, is above the highest, ${high} C`,
          help: 'check both; perhaps they were swapped',
        })
    }),
)
