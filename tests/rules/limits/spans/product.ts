import { EXTRA, label } from '../both-sides.ts'
import { type Row, told } from './row.ts'

const use = (text: string) => ({ [EXTRA]: label({ use: text }) })
const product = (text: string) => ({ [EXTRA]: label({ use: 'rate: 1-6 kg/ha', more: `${text}\n` }) })
const of = (actives: string) => ({ [EXTRA]: label({ use: 'rate: 1-6 kg/ha', actives }) })
const also = (text: string) => use(`rate: 1-6 kg/ha, ${text}`)
const stored = (text: string) => {
  const [dose, stock] = text.split(', ')
  return { [EXTRA]: label({ use: dose!, more: `stock: ${stock}\n` }) }
}
/** A kind of product that is used in large doses, and one that is not. */
const kind = (text: string) => {
  const [named, dose] = text.split(': ') as [string, string]
  const [word, active = 'testazole'] = named.split(' of ') as [string, string?]
  return { [EXTRA]: label({ kind: word, use: dose.replace(' ', ': '), actives: `{ name: ${active} }` }) }
}
const protecting = (text: string) => {
  const [interval, protects] = text.split(', ')
  return {
    [EXTRA]: label({ use: `rate: 1-6 kg/ha, interval: ${interval}`, more: `protects: ${protects}\n` }),
  }
}
export const PRODUCTS: Row[] = [
  ['days before harvest', product, ['before_harvest: 120 d'], ['before_harvest: 121 d']],
  ['re-entry', product, ['re_entry: 168 h', 're_entry: 7 d'], ['re_entry: 169 h']],
  [
    'price',
    product,
    ['price: 3000 EUR/kg', 'price: 4200 HUF/kg'],
    ['price: 3001 EUR/kg', 'price: 4200 CHF/kg'],
  ],
  ['store', product, ['stock: 3000 kg'], ['stock: 3001 kg']],
  ['whole days', product, ['before_harvest: 21 d'], ['before_harvest: 21 h', 'before_harvest: 2.1 d']],
  ['short re-entry', product, ['re_entry: 1 h', 're_entry: 0 h'], ['re_entry: 59 min']],
  [
    'gap',
    product,
    [
      'keep_apart: [ { from: oil, gap: 90 d } ]',
      'keep_apart: [ { from: oil, gap: 24 h } ]',
      'keep_apart: [ { from: oil, gap: 0 d } ]',
    ],
    ['keep_apart: [ { from: oil, gap: 91 d } ]', 'keep_apart: [ { from: oil, gap: 14 h } ]'],
  ],
  ['applications', product, ['max_per_season: 20'], ['max_per_season: 21']],
  ['in a row', product, ['max_in_row: 10'], ['max_in_row: 11']],
  ['protection', product, ['protects: 1 d', 'protects: 30 d'], ['protects: 0.9 d', 'protects: 31 d']],
  [
    'rain',
    product,
    ['rain: { washed_off: 3 mm }', 'rain: { washed_off: 120 mm }'],
    ['rain: { washed_off: 2.9 mm }', 'rain: { washed_off: 121 mm }'],
  ],
  ['drying', product, ['rain: { fast: 24 h }'], ['rain: { fast: 25 h }']],
  ['wind', product, ['wind: 1 m/s', 'wind: 10 m/s'], ['wind: 0.9 m/s', 'wind: 10.1 m/s']],
  [
    'water',
    product,
    ['water: 20-50 L/ha', 'water: 2000-3000 L/ha'],
    ['water: 19-50 L/ha', 'water: 20-49 L/ha', 'water: 300-3001 L/ha'],
  ],
  [
    'temperature',
    product,
    ['temperature: 5-10 C', 'temperature: 5-42 C'],
    ['temperature: 5-9 C', 'temperature: 5-43 C'],
  ],
  [
    'authorisation',
    product,
    ['authorisation: { until: 2046-12-31 }'],
    ['authorisation: { until: 2047-01-01 }'],
  ],
  ['dose', use, ['rate: 10-25 kg/ha', 'rate: 2.5-25 kg/ha'], ['rate: 10-25.1 kg/ha', 'rate: 2.4-24.1 kg/ha']],
  [
    'concentration',
    use,
    ['concentration: 10-50 g/L', 'concentration: 1-5 %'],
    ['concentration: 10-50.1 g/L', 'concentration: 1-5.1 %'],
  ],
  [
    'interval',
    use,
    ['rate: 1-6 kg/ha, interval: 2-7 d', 'rate: 1-6 kg/ha, interval: 45-60 d'],
    ['rate: 1-6 kg/ha, interval: 1-7 d', 'rate: 1-6 kg/ha, interval: 46-60 d'],
  ],
  [
    'most for ground area',
    use,
    ['rate: 1-6 kg/ha, max_rate: 1 kg/ha'],
    ['rate: 1-6 kg/ha, max_rate: 0.9 kg/ha'],
  ],
  ['re-entry far too long', product, [], ['re_entry: 2400 h', 're_entry: 30 min']],
  [
    'water of which one end is off, or both',
    product,
    [],
    ['water: 2001-3001 L/ha', 'water: 2000-3001 L/ha', 'water: 19-49 L/ha'],
  ],
  [
    'contents of all actives',
    of,
    [
      '{ name: a, content: 600 g/kg }, { name: b, content: 400 g/kg }',
      '{ name: a, content: 60 % }, { name: b, content: 40 % }',
      // A litre may weigh more than a kilogram.
      '{ name: a, content: 600 g/L }, { name: b, content: 600 g/L }',
      '{ name: a, content: 600 g/kg }, { name: b, content: 600 g/L }',
      '{ name: a, content: 1000 g/kg }, { name: b }',
    ],
    [
      '{ name: a, content: 600 g/kg }, { name: b, content: 401 g/kg }',
      '{ name: a, content: 60 % }, { name: b, content: 41 % }',
      '{ name: a, content: 600 g/kg }, { name: b, content: 50 % }, { name: c }',
    ],
  ],
  [
    'large doses of oils, lime and weedkillers',
    kind,
    [
      'oil: rate 50-100 L/ha',
      'herbicide: rate 50-100 L/ha',
      'fungicide of lime sulphur: rate 50-100 L/ha',
      'insecticide of paraffin oil: concentration 50-150 mL/L',
      'oil: concentration 5-15 %',
      // 25 is the most of any other.
      'soil improver: rate 5-25 kg/ha',
    ],
    [
      'oil: rate 50-100.1 L/ha',
      'insecticide of paraffin oil: concentration 50-150.1 mL/L',
      'oil: concentration 5-15.1 %',
      'soil improver: rate 5-25.1 kg/ha',
      'fungicide of boiled milk: rate 10-26 kg/ha',
    ],
  ],
  [
    'dose of more than ten times',
    use,
    ['concentration: 1-10 g/L', 'rate: 0-6 kg/ha'],
    ['concentration: 1-10.1 g/L', 'rate: 1-6 kg/ha, concentration: 0.1-2 %'],
  ],
  [
    'limits of one use',
    also,
    ['before_harvest: 120 d', 'max_per_season: 20'],
    ['before_harvest: 121 d', 'max_per_season: 21'],
  ],
  ['longest interval', also, ['interval: 30-60 d'], ['interval: 30-61 d']],
  ['most for ground area, in the unit of the dose', also, ['max_rate: 0.9 L/ha'], []],
  [
    'protection against the interval',
    protecting,
    ['9-14 d, 3 d', '7-14 d, 28 d'],
    ['9-14 d, 2.9 d', '7-14 d, 29 d', '9 d, 2 d'],
  ],
  [
    'several products',
    told({
      sound: { 'products/none.yaml': label({ use: 'rate: 1-6 kg/ha' }) },
      'two uses are off': {
        [EXTRA]: `${label({ use: 'rate: 1-6 kg/ha, interval: 1-7 d' })}`.replace(
          /\n {2}- (.*)\n$/,
          '\n  - $1\n  - { against: downy, rate: 1-6 kg/ha, interval: 46-60 d }\n',
        ),
      },
      'two products are off': {
        [EXTRA]: also('interval: 1-7 d')[EXTRA]!,
        'products/other.yaml': product('wind: 11 m/s')[EXTRA]!,
      },
    }),
    ['sound'],
    ['two uses are off', 'two products are off'],
  ],
  [
    'store',
    product,
    // 0.5 ha at up to 6 kg/ha take 3 kg: a thousand sprays of it are 3000.
    ['stock: 3000 kg', 'stock: 0 kg', 'stock: 90000 L'],
    ['stock: 3100 kg'],
  ],
  [
    'store of what is dosed for a volume',
    stored,
    ['concentration: 1-6 g/L, 99000 kg', 'rate: 0-0 kg/ha, 99000 kg'],
    ['rate: 1-6 kg/ha, 3001 kg'],
  ],
  [
    'store of what is dosed for a volume, with the most for a hectare',
    (stock) => ({
      [EXTRA]: label({
        use: 'concentration: 6-15 g/L, max_rate: 6 kg/ha',
        more: `water: 200-1000 L/ha\nstock: ${stock}\n`,
      }),
    }),
    ['3000 kg', '99000 L'],
    ['3001 kg'],
  ],
  [
    'store of what is dosed for a volume, with the water',
    (text) => {
      const [dose, stock] = text.split(', ')
      return { [EXTRA]: label({ use: dose!, more: `water: 200-1000 L/ha\nstock: ${stock}\n` }) }
    },
    // 0.5 ha in 500 L.
    [
      'concentration: 6-15 g/L, 7500 kg',
      'concentration: 1-2 mL/L, 1000 L',
      'concentration: 0.1-0.5 %, 2500 kg',
    ],
    [
      'concentration: 6-15 g/L, 7501 kg',
      'concentration: 1-2 mL/L, 1001 L',
      'concentration: 0.1-0.5 %, 2501 kg',
    ],
  ],
  [
    'price',
    product,
    ['price: 3000 USD/L', 'price: 90000 JPY/kg', 'price: 0 EUR/kg'],
    [
      'price: 3001 USD/kg',
      'price: 3001 GBP/kg',
      'price: 3001 AUD/kg',
      'price: 3001 CAD/kg',
      'price: 3001 NZD/kg',
    ],
  ],
]
