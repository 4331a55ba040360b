import { expect, test } from 'vitest'
import { findingsOf } from '../../ledger/in-memory.ts'
import { EXTRA, label, SITE_FILE, SPRAYS, site, spray } from '../limits/both-sides.ts'

const told = (from: string) =>
  findingsOf('wind-direction', {
    [SITE_FILE]: site('wind: 9 m/s'),
    [EXTRA]: label(),
    [SPRAYS]: spray({
      products: ['product: extra, rate: 3 kg/ha, for: powdery'],
      more: `  weather: { wind: 2 m/s, from: ${from} }\n`,
    }),
  })

test.each([
  'N',
  'nne',
  'SW',
  'W-NW',
  'SW to W',
  'south-west',
  'westerly',
  '"225"',
  '"360"',
  '0°',
  'calm',
  'variable',
])('wind from %s is a direction', (from) => expect(told(from)).toEqual([]))

test.each(['X', 'NSE', '2 m/s', '"361"', 'SWW', 'river', 'SW to X', 'northsouth'])(
  'wind from %s is none',
  (from) =>
    expect(told(from)).toMatchObject([
      {
        level: 'warning',
        line: 4,
        column: 33,
        message: `\`${from.replaceAll('"', '')}\` is not a wind direction`,
        help: 'write a point of the compass, like SW, or degrees from north',
      },
    ]),
)
