import { type Row, told } from './row.ts'

const UPPER = 'blocks/upper.yaml'
/** Vines planted as far apart as their rows. */
const SQUARE = ['1 m, 1 m', '3 m, 3 m']
const variety = (text: string) => ({ 'varieties/palava.yaml': `name: Palava\ncolour: white\n${text}\n` })
const block = (key: string) => (value: string) => ({
  [UPPER]: {
    row_spacing: `name: U\nvariety: palava\narea: 0.4 ha\nrow_spacing: ${value}\nvine_spacing: 1 m\n`,
    vine_spacing: `name: U\nvariety: palava\narea: 0.4 ha\nrow_spacing: 3 m\nvine_spacing: ${value}\n`,
    rows: `name: U\nvariety: palava\nrows: ${value}\nrow_length: 10 m\nrow_spacing: 2 m\nvine_spacing: 1 m\n`,
    row_length: `name: U\nvariety: palava\nrows: 20\nrow_length: ${value}\nrow_spacing: 2 m\nvine_spacing: 1 m\n`,
    canopy: `name: U\nvariety: palava\narea: 0.4 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\ncanopy: { ${value} }\n`,
    spacing: `name: U\nvariety: palava\narea: 0.4 ha\nrow_spacing: ${value.replace(', ', '\nvine_spacing: ')}\n`,
    more: `name: U\nvariety: palava\narea: 0.4 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\n${value}\n`,
  }[key]!,
})
/** Upper, planted in a year, with one entry about its vines. */
const grown = (value: string) => {
  const [planted, year, kind] = value.split(' ')
  const entry = kind === 'stages' ? 'stage: 9' : 'weight: 900 kg'
  return {
    ...block('more')(`planted: ${planted}`),
    [`seasons/${year}/${kind}.yaml`]: `- { date: ${year}-${kind === 'stages' ? '04-28' : '09-20'}, block: upper, ${entry} }\n`,
  }
}
export const BLOCKS: Row[] = [
  ['row spacing', block('row_spacing'), ['0.8 m', '4.5 m'], ['0.79 m', '4.51 m']],
  ['vine spacing', block('vine_spacing'), ['0.4 m', '3.5 m'], ['0.39 m', '3.51 m']],
  ['rows', block('rows'), ['1', '500'], ['501']],
  ['row length', block('row_length'), ['5 m', '600 m'], ['4.9 m', '601 m']],
  [
    'height of the wall',
    block('canopy'),
    ['height: 0.3 m', 'height: 2.5 m'],
    ['height: 0.29 m', 'height: 2.51 m'],
  ],
  ['width of the canopy', block('canopy'), ['width: 1.99 m'], ['width: 2 m']],
  [
    'vines of an entry',
    grown,
    ['2026 2026 stages', '2025 2026 picks'],
    ['2026 2025 stages', '2026 2026 picks'],
  ],
  ['year of planting', block('more'), ['planted: 2026'], ['planted: 2027']],
  [
    'sugar target',
    block('more'),
    ['targets: { brix: 12-35 }'],
    ['targets: { brix: 11.9-20 }', 'targets: { brix: 20-35.1 }'],
  ],
  ['highest pH', block('more'), ['targets: { ph: 3-4.1 }'], ['targets: { ph: 3-4.2 }']],
  [
    'canopy wider than high',
    block('canopy'),
    ['height: 0.8 m, width: 1.6 m'],
    ['height: 0.8 m, width: 1.61 m'],
  ],
  ['narrow canopy', block('canopy'), ['width: 0.1 m'], ['width: 0.09 m']],
  ['pH target', block('more'), ['targets: { ph: 2.8-3.4 }'], ['targets: { ph: 2.79-3.4 }']],
  ['acid target', block('more'), ['targets: { ta: 5-16 g/L }'], ['targets: { ta: 5-16.1 g/L }']],
  [
    'spacing of both',
    block('spacing'),
    [...SQUARE, '4 m, 3.125 m', '1.25 m, 0.4 m'],
    ['4 m, 3.13 m', '1.24 m, 0.4 m', '5 m, 3 m'],
  ],
  ['vines farther apart than rows', block('spacing'), ['2 m, 2.6 m'], ['2 m, 2.61 m']],
  [
    'width that its height does not bear',
    block('canopy'),
    ['height: 0.4 m, width: 1 m'],
    ['height: 0.4 m, width: 1.01 m'],
  ],
  ['width alone, and height alone', block('canopy'), ['width: 1.5 m', 'height: 0.3 m'], []],
  [
    'sugar target of which one end is off, or both',
    block('more'),
    ['targets: { brix: 30-35 }', 'targets: { ta: 5-8 g/L }'],
    [
      'targets: { brix: 11-36 }',
      'targets: { brix: 31-36 }',
      'targets: { brix: 12-36 }',
      'targets: { brix: 30-36 }',
    ],
  ],
  [
    'low pH and acid',
    block('more'),
    ['targets: { ph: 3.8-3.9 }', 'targets: { ta: 2-3 g/L }'],
    ['targets: { ph: 3.81-3.9 }', 'targets: { ph: 2.6-2.7 }', 'targets: { ta: 2-2.9 g/L }'],
  ],
  [
    'variety: sugar target',
    variety,
    ['targets: { brix: 12-22 }', 'targets: { brix: 30-40 }', 'targets: { ta: 6-8 g/L }'],
    ['targets: { brix: 11.9-20 }', 'targets: { brix: 31-33 }', 'targets: { brix: 12-22.1 }'],
  ],
  [
    'variety: time to ripen',
    variety,
    ['after_veraison: 10-15 d', 'after_veraison: 30-100 d'],
    ['after_veraison: 10-14 d', 'after_veraison: 30-101 d'],
  ],
  [
    'variety: veraison before flowering',
    variety,
    ['heat: { flowering: 1200, veraison: 1201 }', 'heat: { flowering: 1200 }', 'heat: { veraison: 900 }'],
    ['heat: { flowering: 1200, veraison: 1200 }', 'heat: { flowering: 2300, veraison: 1200 }'],
  ],
  [
    'variety: more sugar with less heat',
    variety,
    [
      'heat: { sugar: { 180: 2600, 200: 2700, 90: 1500 } }',
      'heat: { sugar: { 200: 2700 } }',
      'heat: { sugar: { "090": 1500, 180: 2600 } }',
    ],
    [
      'heat: { sugar: { 180: 2600, 200: 2600 } }',
      'heat: { sugar: { 170: 2500, 180: 2700, 200: 2600 } }',
      'heat: { sugar: { 200: 2600, 90: 2700 } }',
    ],
  ],
  [
    'several blocks',
    told({
      sound: {},
      'one is off': { 'blocks/lower.yaml': block('spacing')('5 m, 1 m')[UPPER]! },
      'both are off': {
        [UPPER]: block('spacing')('5 m, 1 m')[UPPER]!,
        'blocks/lower.yaml': block('spacing')('2 m, 4 m')[UPPER]!,
      },
    }),
    ['sound'],
    ['one is off', 'both are off'],
  ],
]
