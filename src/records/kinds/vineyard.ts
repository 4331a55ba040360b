import * as z from 'zod'
import { isTimeZone, zoneMeant } from '../clock.ts'
import { dayNumber, FIRST_YEAR, LAST_YEAR } from '../date.ts'
import { DISEASES } from '../disease.ts'
import { atFirstUse, raiseAt } from '../fields/field.ts'
import { choice, count, measure, note, number, text } from '../fields/fields.ts'
import { thresholds } from './block-fields.ts'

/** The site: `vineyard.yaml`. */
export const vineyard = atFirstUse(() =>
  z
    .strictObject({
      name: text('name of the vineyard', ['Far Quillet']),
      latitude: number('degrees north, negative in the south', -90, 90, [52.1]),
      longitude: number('degrees east, negative in the west', -180, 180, [5.6]).optional(),
      timezone: text('IANA time zone', ['Europe/Amsterdam']),
      units: choice(['metric', 'us', 'imperial'], 'units that reports print', { uk: 'imperial' }).default(
        'metric',
      ),
      season_starts: text(
        'first day of the season as MM-DD, where it is not 1 November (north) or 1 June (south)',
        ['11-01'],
      ).optional(),
      limits: z
        .strictObject({
          copper: z
            .strictObject({
              per_season: measure('kg/ha', 'most copper metal in one season', 0, 100, '4 kg/ha').optional(),
              rolling: measure(
                'kg/ha',
                'most copper metal over the years below',
                0,
                1000,
                '28 kg/ha',
              ).optional(),
              years: count('calendar years that `rolling` counts', 1, 50, [7]).optional(),
              from: count(
                'first year of fixed blocks of years, where the law counts so',
                FIRST_YEAR,
                LAST_YEAR,
                [2019],
              ).optional(),
            })
            .optional(),
          wind: measure('m/s', 'most wind to spray in', 0, 30, '5 m/s').optional(),
        })
        .optional(),
      thresholds: thresholds().optional(),
      diseases: z.array(choice(DISEASES, 'a disease that is judged here')).optional(),
      downy: z
        .strictObject({
          rain: measure('mm', 'rain that downy primary infection takes here', 0, 200, '10 mm').optional(),
          temperature: measure(
            'C',
            'warmth that downy primary infection takes here',
            0,
            30,
            '10 C',
          ).optional(),
        })
        .optional(),
      harvest: z
        .strictObject({
          picking: measure('kg/h', 'picked by one person in an hour', 0.1, 2000, '45 kg/h').optional(),
          crate: measure('kg', 'fruit in one crate', 0.1, 2000, '12 kg').optional(),
          bucket: measure('kg', 'fruit in one full bucket', 0.1, 200, '9 kg').optional(),
          juice: measure('L/t', 'juice from a tonne of fruit', 100, 1000, '620 L/t').optional(),
          day: measure('h', 'hours that a picking day has', 1, 24, '6 h').optional(),
          press: measure('kg', 'fruit in one press load', 1, 100_000, '500 kg').optional(),
          tank: measure('L', 'volume of one cellar tank', 1, 1_000_000, '1000 L').optional(),
          bottle: measure('L', 'volume of a bottle', 0.1, 20, '0.75 L').optional(),
        })
        .optional(),
      press: z
        .strictObject({
          capacity: measure('kg', 'fruit that the press room takes in a day', 1, 1_000_000, '300 kg'),
        })
        .optional(),
      weather: z
        .strictObject({
          columns: z.record(z.string(), text('name of the column in the file')).optional(),
          units: z.record(z.string(), text('unit of the column')).optional(),
          decimal: choice(['point', 'comma'], 'decimal mark in the file').optional(),
          separator: text('what stands between the columns').optional(),
          dates: choice(['iso', 'day-first', 'month-first'], 'how the file writes dates').optional(),
        })
        .optional(),
      note: note().optional(),
    })
    .superRefine((site, context) => {
      if (site.timezone !== undefined && !isTimeZone(site.timezone)) {
        raiseAt(context, ['timezone'], {
          name: 'unknown-timezone',
          message: `\`${site.timezone}\` is not a time zone`,
          help: zoneMeant(site.timezone),
        })
      }
      if (site.season_starts !== undefined && dayNumber(`2025-${site.season_starts}`) === null) {
        raiseAt(context, ['season_starts'], {
          name: 'bad-date',
          message: `\`${site.season_starts}\` is not a day of the year`,
          help: 'write month-day, like 11-01',
        })
      }
    }),
)

export type Vineyard = z.output<ReturnType<typeof vineyard>>
