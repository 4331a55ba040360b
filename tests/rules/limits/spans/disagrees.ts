import { EXTRA, label } from '../both-sides.ts'
import { type Row, told } from './row.ts'

const DOSED = 'rate: 1-6 kg/ha'
/** A product of this form with these actives: `SC, kg/ha: { name: a }, { name: b }`. */
const holding = (text: string) => {
  const [, form, unit, actives] = /^(\w+), (\S+): (.*)$/.exec(text)!
  return { [EXTRA]: label({ form: form!, use: `rate: 1-6 ${unit}`, actives: actives! }) }
}
/** A product with these doses, one a use, and a store and a price: `concentration: 1-2 g/L | stock: 4 kg`. */
const dosed = (text: string) => {
  const [uses, more] = text.split(' | ') as [string, string]
  const [first, ...others] = uses.split('; ')
  const list = others.map((use) => `  - { against: downy, ${use} }\n`).join('')
  const form = uses.includes('mL') || / L/.test(uses) ? 'SC' : 'WG'
  return { [EXTRA]: label({ form, use: first!, actives: '{ name: testazole }', more: `${list}${more}\n` }) }
}
/** A product of copper or sulphur: `copper, 350 g/kg, M01: rate: 1-6 kg/ha; rate: 1-2 kg/ha`. */
const mineral = (text: string, kind = 'fungicide') => {
  const [, name, content, group, uses] = /^([\w ]+), ([^,]*), (\S*): (.*)$/.exec(text)!
  const [first, ...others] = uses!.split('; ')
  const list = others.map((use) => `  - { against: downy, ${use} }\n`).join('')
  const actives = `{ name: ${name}${content ? `, content: ${content}` : ''}${group ? `, group: ${group}` : ''} }`
  return { [EXTRA]: label({ kind, use: first!, actives, more: list }) }
}
const kind = (text: string) => ({ [EXTRA]: label({ kind: text, use: DOSED }) })
const active = (text: string) => ({
  [EXTRA]: label({ use: DOSED, actives: `{ name: testazole }, { name: ${text} }` }),
})
const apart = (text: string) => ({
  [EXTRA]: label({
    use: DOSED,
    more: `keep_apart: [ { from: oil, gap: 7 d }, { from: ${text}, gap: 7 d } ]\n`,
  }),
  'products/stylet.yaml': label({
    kind: 'plant strengthener',
    use: DOSED,
    actives: '{ name: jojoba }',
  }).replace('name: Extra', 'name: Summer wash'),
})
export const PRODUCT_WORDS: Row[] = [
  [
    'form against content and dose',
    holding,
    [
      'WG, kg/ha: { name: a }',
      'SC, L/ha: { name: a }',
      'SC, kg/ha: { name: a, content: 100 g/kg }, { name: b, content: 100 g/L }',
      'SC, kg/ha: { name: a, content: 100 g/kg }, { name: b }',
      'SC, kg/ha: { name: a }',
      'SC, L/ha: { name: a, content: 100 g/L }',
      'WG, kg/ha: { name: a, content: 20 % }',
    ],
    [
      'WP, kg/ha: { name: a }, { name: b, content: 100 g/L }',
      'WP, kg/ha: { name: a, content: 100 g/L }',
      'GR, L/ha: { name: a }',
      'EC, kg/ha: { name: a, content: 100 g/kg }, { name: b, content: 200 g/kg }',
    ],
  ],
  [
    'store and price against the dose',
    dosed,
    [
      'concentration: 1-2 g/L | stock: 4 kg\nprice: 4 EUR/kg',
      'concentration: 1-2 mL/L | stock: 4 L\nprice: 4 EUR/L',
      'rate: 1-2 kg/ha; rate: 1-2 L/ha | stock: 4 L\nprice: 4 EUR/kg',
      'rate: 1-2 kg/ha; concentration: 1-2 % | stock: 4 kg',
      'concentration: 1-2 % | stock: 4 kg\nprice: 4 EUR/L',
    ],
    [
      'concentration: 1-2 g/L | stock: 4 L\nprice: 4 EUR/L',
      'concentration: 1-2 mL/L | stock: 4 kg\nprice: 4 EUR/kg',
      'rate: 1-2 kg/ha; concentration: 1-2 % | stock: 4 L',
      'rate: 1-2 kg/ha; concentration: 1-2 g/L | price: 4 EUR/L',
    ],
  ],
  [
    'copper and sulphur by the highest dose of the label',
    mineral,
    [
      'copper, 350 g/kg, M01: rate: 0.1-0.2 kg/ha; rate: 1-2 kg/ha',
      'copper, , M01: rate: 1-900 kg/ha',
      'copper, 350 g/kg, : concentration: 1-2 g/L',
      'copper, 350 g/kg, M01: rate: 1-2 kg/ha; rate: 40-80 kg/ha leaf wall',
      'copper, 35 %, M01: rate: 1-2 kg/ha',
      'sulphur, 1000 g/kg, M02: rate: 20-60 kg/ha',
      'coppersmith, 1 g/kg, M02: rate: 1-2 kg/ha',
    ],
    [
      'copper, 350 g/kg, M01: rate: 1-2 kg/ha; rate: 10-24 kg/ha',
      'copper, 350 g/kg, M02: rate: 10-24 kg/ha',
      'copper hydroxide, 0.35 %, M01: rate: 1-2 kg/ha',
      'sulphur, 1000 g/kg, M02: rate: 20-61 kg/ha',
      'Sulfur, 80 g/kg, M02: rate: 1-6 kg/ha',
    ],
  ],
  ['copper that feeds', (text) => mineral(text, 'fertiliser'), ['copper, 5 g/kg, M02: rate: 1-2 kg/ha'], []],
  [
    'kind',
    kind,
    [
      '" Fungicide "',
      'oill',
      'solvent',
      'organic fungicide',
      'condition',
      'growth',
      'contact fungicid',
      'fertiliser',
      'fertilizer',
      'wetter',
    ],
    [
      'Fungcide',
      'fungcida',
      'insecticde',
      'acarcide',
      'hrbicide',
      'moluscicide',
      'bacterocide',
      'biologcal',
      'adjuvnt',
      'weter',
      'water conditoner',
      'fertilizr',
      'growth regulater',
      'repelent',
    ],
  ],
  [
    'active',
    active,
    ['tebuconazole', 'solphir', 'solfer', 'sulphate of lime', 'copper oxychloride', 'cop'],
    ['coper', 'sulfer', 'sulphir', 'Copperr'],
  ],
  [
    'what it is kept apart from',
    apart,
    [
      'stylet',
      'summer wash',
      'wash',
      'jojoba',
      'strengthener',
      'lime sulphur',
      'lime',
      'Copper',
      'test copper',
      'oils',
      'testazole',
      'azole',
    ],
    [
      'stilet',
      'summer wahs',
      'jojobe',
      'lime sulphar',
      'testazol',
      'plant strengthner',
      'sulfor',
      'cooper',
      'test coper',
      'herbicid',
    ],
  ],
  [
    'what it is kept apart from, in a book without sulphur and copper',
    (text) => ({ ...apart(text), 'products/sulphur.yaml': null, 'products/copper.yaml': null }),
    ['sulphur', 'copper', 'sulfur'],
    ['sulpur', 'coper', 'sulfer'],
  ],
  [
    'a word of a name in the book, however near it is to another',
    (text) => ({
      ...apart(text),
      'products/blue.yaml': label({ use: DOSED }).replace('name: Extra', 'name: Coppor Blue'),
    }),
    ['coppor', 'Coppor blue', 'blue'],
    [],
  ],
  [
    'several words',
    told({
      all: {
        [EXTRA]: label({
          kind: 'fungcide',
          use: DOSED,
          actives: '{ name: coper, group: M02 }',
          more: 'stock: 4 L\nkeep_apart: [ { from: sulpur, gap: 7 d }, { from: oills, gap: 7 d } ]\n',
        }),
      },
    }),
    [],
    ['all'],
  ],
]
