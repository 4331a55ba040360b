import { SPRAYS, spray } from '../both-sides.ts'
import { type Row, told } from './row.ts'

const WIDE = 'name: Wide\nvariety: palava\narea: 0.4 ha\nrow_spacing: 3 m\nvine_spacing: 1 m\n'
const day = (index: number) => `2026-06-${String(index * 5 + 1).padStart(2, '0')}`
/** Sprays of sulphur in these doses, `3 kg/ha, 3 kg/ha, 24 kg/ha`; an amount is that of 0.4 ha. */
const doses = (text: string, start = 0, id = 'sulphur') => ({
  'blocks/wide.yaml': WIDE,
  [SPRAYS]: text
    .split(', ')
    .map((dose, index) => {
      const form = dose.endsWith('/ha') ? 'rate' : dose.endsWith('/L') ? 'concentration' : 'amount'
      return spray({ date: day(start + index), products: [`product: ${id}, ${form}: ${dose}`] })
    })
    .join(''),
})
/** Sprays in these waters by a sprayer: `300, 300, 30`. */
const waters = (text: string, by: string | null = 'mounted', start = 0) => ({
  'sprayers/knapsack.yaml': 'name: Knapsack\ntank: 15 L\n',
  [SPRAYS]: text
    .split(', ')
    .map((water, index) =>
      spray({
        date: day(start + index),
        products: ['product: sulphur, rate: 3 kg/ha'],
        water: /L/.test(water) ? water : `${water} L/ha`,
        more: by === null ? '' : `  sprayer: ${by}\n`,
      }),
    )
    .join(''),
})
/** The sprays of one ledger after those of another. */
const and = (a: ReturnType<typeof waters>, b: ReturnType<typeof waters>) => ({
  ...a,
  [SPRAYS]: a[SPRAYS]! + b[SPRAYS]!,
})
const blocks = (files: ReturnType<typeof doses>, list: string, at: number) => {
  let index = 0
  return {
    ...files,
    [SPRAYS]: files[SPRAYS]!.replace(/\[upper\]/g, (text) => (index++ === at ? list : text)),
  }
}
export const TIMES: Row[] = [
  [
    'dose',
    doses,
    [
      '3 kg/ha, 3 kg/ha, 23.9 kg/ha',
      '24 kg/ha, 24 kg/ha, 3.1 kg/ha',
      '3 kg/ha, 30 kg/ha',
      '3 kg/ha, 1.2 kg, 10 g/L',
    ],
    [
      '3 kg/ha, 3 kg/ha, 24 kg/ha',
      '24 kg/ha, 24 kg/ha, 3 kg/ha',
      '3 kg/ha, 12 kg, 3 kg/ha',
      '10 g/L, 3 kg/ha, 100 g/L',
      '2 kg/ha, 4 kg/ha, 5 kg/ha, 36 kg/ha',
    ],
  ],
  [
    'doses that do not go together',
    told({
      'two products': {
        ...doses('', 0),
        [SPRAYS]:
          doses('3 kg/ha, 3 kg/ha')[SPRAYS]! + doses('30 kg/ha, 30 kg/ha, 30 kg/ha', 2, 'copper')[SPRAYS]!,
      },
      'two units': doses('3 kg/ha, 3 kg/ha, 3 kg/ha, 30 L/ha'),
      'of rows nobody counted': {
        ...doses(''),
        [SPRAYS]: `${doses('3 kg/ha, 3 kg/ha')[SPRAYS]}${spray({ date: '2026-06-20', products: ['product: sulphur, rate: 30 kg/ha'], more: '  rows: 1-4\n' }).replace('upper', 'wide')}`,
      },
      'on several blocks, told once': blocks(doses('3 kg/ha, 3 kg/ha, 30 kg/ha'), '[upper, lower]', 2),
      'two blocks of one spray are one dose': blocks(doses('30 kg/ha, 3 kg/ha'), '[upper, lower]', 1),
    }),
    ['two products', 'two units', 'of rows nobody counted', 'two blocks of one spray are one dose'],
    ['on several blocks, told once'],
  ],
  [
    'water',
    waters,
    // 120 L on 0.4 ha are 300 L/ha.
    ['300, 300, 37.6', '300, 300, 2390', '300, 30', '300, 120 L, 310'],
    ['300, 300, 37.5', '300, 300, 2400', '300, 12 L, 310'],
  ],
  [
    'water of several sprayers',
    told({
      'a knapsack beside a big one': and(waters('300, 300, 300'), waters('30, 30', 'knapsack', 3)),
      'one not named': and(waters('300, 300'), waters('30', null, 3)),
      'of rows nobody counted': {
        ...doses(''),
        [SPRAYS]: `${waters('300, 300, 300')[SPRAYS]}${spray({ date: '2026-06-20', products: ['product: sulphur, rate: 3 kg/ha'], water: '2 L', more: '  rows: 1-4\n  sprayer: mounted\n' }).replace('upper', 'wide')}`,
      },
      'two and one of rows nobody counted': {
        ...doses(''),
        [SPRAYS]: `${waters('300, 30')[SPRAYS]}${spray({ date: '2026-06-20', products: ['product: sulphur, rate: 3 kg/ha'], water: '2 L', more: '  rows: 1-4\n  sprayer: mounted\n' }).replace('upper', 'wide')}`,
      },
      'none named': waters('300, 300, 30', null),
      'of the knapsack': and(waters('300, 300, 300'), waters('30, 30, 300', 'knapsack', 3)),
    }),
    [
      'a knapsack beside a big one',
      'one not named',
      'of rows nobody counted',
      'two and one of rows nobody counted',
    ],
    ['none named', 'of the knapsack'],
  ],
]
