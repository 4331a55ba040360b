import { SPRAYS, spray } from '../both-sides.ts'
import { type Row, told } from './row.ts'

const sprayed = (text: string) => ({
  [SPRAYS]: spray({
    products: ['product: sulphur, rate: 3 kg/ha, for: powdery'],
    water: /water: (.*)/.exec(text)?.[1] ?? '300 L/ha',
    more: text.startsWith('water') ? '' : `  ${text}\n`,
  }),
})
const weather = (text: string) => sprayed(`weather: { ${text} }`)
const SULPHUR = 'product: sulphur, rate: 3 kg/ha, for: powdery'
const COPPER = 'product: copper, rate: 1 kg/ha, for: downy'
/** A spray of these blocks: `[upper, lower], water: 20 L`. `wide` has its area and not its rows. */
const blocks = (text: string) => {
  const [, list, water, more] = /^(\[.*\]), water: ([^,]*)(?:, (.*))?$/.exec(text)!
  return {
    'blocks/wide.yaml': 'name: Wide\nvariety: palava\narea: 0.4 ha\nrow_spacing: 3 m\nvine_spacing: 1 m\n',
    'sprayers/bare.yaml': 'name: Bare\ntank: 200 L\nspeed: 5 km/h\n',
    'sprayers/still.yaml': 'name: Still\ntank: 200 L\nflow: 5.5 L/min\n',
    'sprayers/twin.yaml': 'name: Twin\ntank: 200 L\nflow: 11 L/min\nspeed: 5 km/h\nrows_per_pass: 2\n',
    [SPRAYS]: spray({
      products: [SULPHUR],
      water: water!,
      more: more ? `  ${more.replace(', ', '\n  ')}\n` : '',
    }).replace('[upper]', list!),
  }
}
const tank = (...products: string[]) => ({ [SPRAYS]: spray({ products }) })
export const SPRAY_ROWS: Row[] = [
  ['water', sprayed, ['water: 40 L/ha', 'water: 2500 L/ha'], ['water: 39 L/ha', 'water: 2501 L/ha']],
  ['time', sprayed, ['time: 05:00-05:03', 'time: 05:00-19:00'], ['time: 05:00-05:02', 'time: 05:00-19:01']],
  [
    'temperature',
    weather,
    ['temperature: 1 C', 'temperature: 36 C'],
    ['temperature: 0.9 C', 'temperature: 36.1 C'],
  ],
  ['humidity', weather, ['humidity: 20 %', 'humidity: 100 %'], ['humidity: 19 %']],
  ['share', sprayed, ['share: 2 %'], ['share: 1.9 %']],
  ['dilute', sprayed, ['dilute: 270 L/ha', 'dilute: 5000 L/ha'], ['dilute: 269 L/ha', 'dilute: 5001 L/ha']],
  [
    // upper has 0.4 ha in 20 rows, lower 0.1 ha.
    'water in all',
    blocks,
    [
      '[upper], water: 16 L',
      '[upper, lower], water: 20 L',
      '[upper], water: 8 L, rows: 1-10',
      '[upper], water: 8 L, share: 50 %',
      '[wide], water: 1 L, rows: 1-10',
      '[upper, wide], water: 1 L, rows: 1-10',
    ],
    [
      '[upper], water: 15.9 L',
      '[upper, lower], water: 19.9 L',
      '[upper], water: 7.9 L, rows: 1-10',
      '[upper], water: 501 L, share: 50 %',
    ],
  ],
  [
    'no water written, and no end',
    told({
      neither: {
        [SPRAYS]: `- { date: 2026-06-10, time: 05:00, blocks: [upper], dilute: 100 L/ha, products: [ { ${SULPHUR} } ] }\n`,
      },
      'through midnight': sprayed('time: 22:00-02:00 +1'),
      'a day and a night': sprayed('time: 05:00-05:00 +1'),
      'little to run-off': {
        [SPRAYS]: `- { date: 2026-06-10, blocks: [upper], dilute: 99 L/ha, products: [ { ${SULPHUR} } ] }\n`,
      },
    }),
    ['neither', 'through midnight'],
    ['a day and a night', 'little to run-off'],
  ],
  [
    'several in one tank',
    told({
      two: tank(SULPHUR, COPPER),
      'one of them again': tank(COPPER, SULPHUR, SULPHUR),
      'the first again': tank(SULPHUR, COPPER, SULPHUR),
    }),
    ['two'],
    ['one of them again', 'the first again'],
  ],
  [
    'several blocks',
    blocks,
    ['[lower, upper], water: 300 L/ha'],
    ['[lower, upper, upper], water: 300 L/ha', '[upper, lower, upper], water: 300 L/ha'],
  ],
  [
    // 5.5 L/min at 5 km/h give 330 L/ha in rows 2 m apart, 220 in rows 3 m apart; two rows at a time want twice the flow.
    'water against the calibration',
    blocks,
    [
      '[upper], water: 412.5 L/ha, sprayer: mounted',
      '[upper], water: 247.5 L/ha, sprayer: mounted',
      '[upper], water: 412.5 L/ha, sprayer: twin',
      '[upper], water: 900 L/ha, sprayer: bare',
      '[upper], water: 900 L/ha, sprayer: still',
      '[upper], water: 900 L/ha',
      '[wide, upper], water: 400 L/ha, sprayer: mounted',
      '[wide, upper], water: 200 L/ha, sprayer: mounted',
      '[wide], water: 100 L, sprayer: mounted, rows: 1-4',
    ],
    [
      '[upper], water: 413 L/ha, sprayer: mounted',
      '[upper], water: 247 L/ha, sprayer: mounted',
      '[upper], water: 413 L/ha, sprayer: twin',
      '[wide, upper], water: 413 L/ha, sprayer: mounted',
      '[upper], water: 166 L, sprayer: mounted',
    ],
  ],
]
