import { describe, expect, test } from 'vitest'
import { findingsOf } from '../../ledger/in-memory.ts'
import { EXTRA, type Files, label, SPRAYS, spray } from './both-sides.ts'

// What no vineyard has: each end of each span, silent on it and speaking just beyond. The spans themselves are
// common practice without a source, so that these rows hold the rule to what it says of itself.

type Row = [what: string, make: (value: string) => Files, inside: string[], outside: string[]]

const UPPER = 'blocks/upper.yaml'
const block = (key: string) => (value: string) => ({
  [UPPER]: {
    row_spacing: `name: U\nvariety: palava\narea: 0.4 ha\nrow_spacing: ${value}\nvine_spacing: 1 m\n`,
    vine_spacing: `name: U\nvariety: palava\narea: 0.4 ha\nrow_spacing: 3 m\nvine_spacing: ${value}\n`,
    rows: `name: U\nvariety: palava\nrows: ${value}\nrow_length: 10 m\nrow_spacing: 2 m\nvine_spacing: 1 m\n`,
    row_length: `name: U\nvariety: palava\nrows: 20\nrow_length: ${value}\nrow_spacing: 2 m\nvine_spacing: 1 m\n`,
    canopy: `name: U\nvariety: palava\narea: 0.4 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\ncanopy: { ${value} }\n`,
    more: `name: U\nvariety: palava\narea: 0.4 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\n${value}\n`,
  }[key]!,
})
const BLOCKS: Row[] = [
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
]

const use = (text: string) => ({ [EXTRA]: label({ use: text }) })
const product = (text: string) => ({ [EXTRA]: label({ use: 'rate: 1-6 kg/ha', more: `${text}\n` }) })
const PRODUCTS: Row[] = [
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
    ['keep_apart: [ { from: oil, gap: 90 d } ]'],
    ['keep_apart: [ { from: oil, gap: 91 d } ]'],
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
]

const sprayer = (text: string) => ({
  'sprayers/mounted.yaml': `name: M\n${text.includes('tank') ? '' : 'tank: 200 L\n'}${text}\n`,
})
const SPRAYERS: Row[] = [
  [
    'time of a tank',
    sprayer,
    ['tank: 15 L\nflow: 10 L/min', 'tank: 480 L\nflow: 1 L/min'],
    ['tank: 14 L\nflow: 10 L/min', 'tank: 481 L\nflow: 1 L/min'],
  ],
  ['tank', sprayer, ['tank: 3 L', 'tank: 4000 L'], ['tank: 2.9 L', 'tank: 4001 L']],
  [
    'flow',
    sprayer,
    ['tank: 20 L\nflow: 0.2 L/min', 'tank: 200 L\nflow: 120 L/min'],
    ['tank: 20 L\nflow: 0.19 L/min', 'tank: 200 L\nflow: 121 L/min'],
  ],
  ['speed', sprayer, ['speed: 1 km/h', 'speed: 12 km/h'], ['speed: 0.9 km/h', 'speed: 12.1 km/h']],
  ['pressure', sprayer, ['pressure: 0.5 bar', 'pressure: 60 bar'], ['pressure: 0.4 bar', 'pressure: 61 bar']],
  [
    'nozzle',
    sprayer,
    ['nozzles: [ 0.9 L/min, 1 L/min, 1.1 L/min ]'],
    ['nozzles: [ 0.89 L/min, 1 L/min, 1.11 L/min ]'],
  ],
  [
    'sum of nozzles',
    sprayer,
    ['flow: 2 L/min\nnozzles: [ 1.1 L/min, 1.1 L/min ]'],
    ['flow: 2 L/min\nnozzles: [ 1.11 L/min, 1.11 L/min ]'],
  ],
]

const sprayed = (text: string) => ({
  [SPRAYS]: spray({
    products: ['product: sulphur, rate: 3 kg/ha, for: powdery'],
    water: /water: (.*)/.exec(text)?.[1] ?? '300 L/ha',
    more: text.startsWith('water') ? '' : `  ${text}\n`,
  }),
})
const weather = (text: string) => sprayed(`weather: { ${text} }`)
const SPRAY_ROWS: Row[] = [
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
]

const sample = (text: string) => ({
  'seasons/2026/samples.yaml': `- { date: 2026-09-10, block: upper, ${text} }\n`,
})
const SAMPLES: Row[] = [
  ['Brix', sample, ['brix: 3', 'brix: 30'], ['brix: 2.9', 'brix: 30.1']],
  ['Oechsle', sample, ['oechsle: 15', 'oechsle: 135'], ['oechsle: 14', 'oechsle: 136']],
  ['Baumé', sample, ['baume: 2', 'baume: 17'], ['baume: 1.9', 'baume: 17.1']],
  ['density', sample, ['density: 1.01', 'density: 1.135'], ['density: 1.009', 'density: 1.136']],
  ['pH', sample, ['ph: 2.6', 'ph: 4.1'], ['ph: 2.59', 'ph: 4.11']],
  ['acid', sample, ['ta: 3 g/L', 'ta: 35 g/L'], ['ta: 2.9 g/L', 'ta: 35.1 g/L']],
  [
    'berries',
    sample,
    ['berries: 5, brix: 18', 'berries: 600, brix: 18'],
    ['berries: 4, brix: 18', 'berries: 601, brix: 18'],
  ],
  [
    'berry',
    sample,
    ['berry_weight: 0.3 g', 'berry_weight: 4 g'],
    ['berry_weight: 0.29 g', 'berry_weight: 4.1 g'],
  ],
  ['one reading', sample, ['brix: [18, 18, 26]'], ['brix: [18, 18, 26.1]']],
]
const after = (text: string) => ({
  'seasons/2026/samples.yaml': `- { date: 2026-09-01, block: upper, brix: 18, ph: 3.0, ta: 12 g/L }\n- { date: 2026-09-03, block: upper, ${text} }\n`,
})
/** Three samples a week apart, of which the middle one is given. */
const between = (text: string) => ({
  'seasons/2026/samples.yaml': `- { date: 2026-09-01, block: upper, brix: 16, ph: 3, ta: 12 g/L }\n- { date: 2026-09-08, block: upper, ${text} }\n- { date: 2026-09-15, block: upper, brix: 18, ph: 3.2, ta: 10 g/L }\n`,
})
const onDay = (date: string) => ({
  'seasons/2026/samples.yaml': `- { date: ${date}, block: upper, brix: 14 }\n`,
  'seasons/2026/stages.yaml': '- { date: 2026-08-14, block: upper, stage: 81 }\n',
})
const afterPick = (text: string) => ({
  'seasons/2026/samples.yaml': '- { date: 2026-09-20, block: upper, brix: 18 }\n',
  'seasons/2026/picks.yaml': `- { block: upper, weight: 900 kg, date: 2026-09-${text} }\n`,
})
const STEPS: Row[] = [
  // 70 °Oe are 17.1 Brix, and 66 are 16.1.
  ['sugar down, in another measure', after, ['oechsle: 67'], ['oechsle: 60']],
  ['out of both neighbours, sugar', between, ['brix: 19.9'], ['brix: 20']],
  ['out of both neighbours, pH', between, ['ph: 3.39', 'ph: 2.81'], ['ph: 3.41', 'ph: 2.79']],
  ['out of both neighbours, acid', between, ['ta: 13.4 g/L'], ['ta: 13.6 g/L']],
  ['month', onDay, ['2026-09-01'], ['2026-05-31', '2026-03-01']],
  ['before ripening', onDay, ['2026-08-07'], ['2026-08-06']],
  ['after the pick', afterPick, ['20', '19, rest: 10 %'], ['19']],
  ['a close list', sample, ['brix: [18, 18.2, 17.8, 18.1, 22.8]'], ['brix: [18, 18.2, 17.8, 18.1, 23]']],
  ['sugar down', after, ['brix: 16.1'], ['brix: 16']],
  ['sugar up', after, ['brix: 21'], ['brix: 21.1']],
  ['pH', after, ['ph: 3.4', 'ph: 2.6'], ['ph: 3.41', 'ph: 2.59']],
  ['acid up', after, ['ta: 15 g/L'], ['ta: 15.1 g/L']],
  ['acid down', after, ['ta: 7 g/L'], ['ta: 6.9 g/L']],
]

const crop = (text: string) => ({
  'seasons/2026/crop.yaml': `- { date: 2026-08-05, block: upper, at: lag, ${text} }\n`,
})
const weighed = (text: string) => ({
  'seasons/2026/crop.yaml': `- { block: upper, bunch_weight: 50 g, date: ${text} }\n`,
  'seasons/2026/stages.yaml': '- { date: 2026-08-14, block: upper, stage: 81 }\n',
})
const CROP: Row[] = [
  ['bunches', crop, ['bunches_per_vine: [0, 120]'], ['bunches_per_vine: [20, 121]']],
  [
    'bunch',
    crop,
    ['bunch_weight: 8 g', 'bunch_weight: 900 g'],
    ['bunch_weight: 7.9 g', 'bunch_weight: 901 g'],
  ],
  [
    'stage',
    weighed,
    ['2026-08-21, at: harvest', '2026-08-28, at: lag'],
    ['2026-08-20, at: harvest', '2026-08-29, at: lag'],
  ],
  ['month', weighed, ['2026-06-01, at: lag'], ['2026-05-31, at: lag']],
  [
    'one of several',
    crop,
    ['bunch_weight: [50 g, 50 g, 50 g, 249 g]', 'bunch_weight: [50 g, 50 g, 50 g, 10.1 g]'],
    ['bunch_weight: [50 g, 50 g, 50 g, 250 g]', 'bunch_weight: [50 g, 50 g, 50 g, 10 g]'],
  ],
]

const pick = (text: string) => ({
  'seasons/2026/picks.yaml': `- { date: 2026-09-29, block: upper, ${text} }\n`,
  'vineyard.yaml': 'name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nharvest: { crate: 12 kg }\n',
})
const usually = (text: string) => ({
  'seasons/2026/picks.yaml': `- { date: 2026-09-29, block: upper, ${text} }\n`,
  'vineyard.yaml': 'name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nharvest: { picking: 40 kg/h }\n',
})
const twoPicks = (text: string) => ({
  'seasons/2026/picks.yaml': `- { date: 2026-09-29, block: upper, weight: 900 kg, ${text} }\n- { date: 2026-10-01, block: upper, weight: 900 kg }\n`,
})
const turned = (date: string) => ({
  'seasons/2026/stages.yaml': `- { date: ${date}, block: upper, stage: 81 }\n`,
  'seasons/2026/picks.yaml': '- { date: 2026-09-05, block: upper, weight: 900 kg }\n',
})
const PICKS: Row[] = [
  // 0.4 ha bears 16 t at 40 t/ha.
  ['crop', pick, ['weight: 16000 kg'], ['weight: 16001 kg']],
  [
    'hands',
    pick,
    ['weight: 300 kg, people: 1, hours: 1', 'weight: 40 kg, people: 5, hours: 2'],
    ['weight: 301 kg, people: 1, hours: 1', 'weight: 39 kg, people: 5, hours: 2'],
  ],
  ['hours', pick, ['weight: 1800 kg, hours: 16'], ['weight: 1800 kg, hours: 16.1']],
  [
    'juice',
    pick,
    ['weight: 1000 kg, juice: 250 L', 'weight: 1000 kg, juice: 900 L'],
    ['weight: 1000 kg, juice: 249 L', 'weight: 1000 kg, juice: 901 L'],
  ],
  [
    'crates',
    pick,
    ['weight: 1200 kg, crates: 50', 'weight: 1200 kg, crates: 200'],
    ['weight: 1200 kg, crates: 49', 'weight: 1200 kg, crates: 201'],
  ],
  [
    'sugar',
    pick,
    ['weight: 1800 kg, brix: 13', 'weight: 1800 kg, brix: 29'],
    ['weight: 1800 kg, brix: 12.9', 'weight: 1800 kg, brix: 29.1', 'weight: 1800 kg, brix: 33'],
  ],
  ['pH', pick, ['weight: 1800 kg, ph: 2.6', 'weight: 1800 kg, ph: 4.2'], ['weight: 1800 kg, ph: 4.21']],
  [
    'acid',
    pick,
    ['weight: 1800 kg, ta: 2 g/L', 'weight: 1800 kg, ta: 25 g/L'],
    ['weight: 1800 kg, ta: 25.1 g/L'],
  ],
  [
    'usual hands',
    usually,
    ['weight: 200 kg, people: 1, hours: 1', 'weight: 8 kg, people: 1, hours: 1'],
    ['weight: 201 kg, people: 1, hours: 1', 'weight: 7.9 kg, people: 1, hours: 1'],
  ],
  ['rest', twoPicks, ['rest: 1 %'], ['rest: 0 %']],
  // Palava ripens 35 to 55 days after the beginning, and half of 35 is 17.5.
  ['ripening', turned, ['2026-08-18'], ['2026-08-19']],
  ['thrown away', pick, ['weight: 1800 kg, sorted_out: 1800 kg'], ['weight: 1800 kg, sorted_out: 1801 kg']],
]

const site = (text: string) => ({ 'vineyard.yaml': `name: T\ntimezone: Europe/Berlin\n${text}\n` })
const inside = (text: string) => site(`latitude: 51.5\n${text}`)
const SITES: Row[] = [
  [
    'longitude',
    inside,
    ['longitude: 43', 'longitude: -13'],
    ['longitude: 44', 'longitude: -14', 'longitude: 151'],
  ],
  [
    'latitude',
    site,
    ['latitude: 20', 'latitude: 62'],
    ['latitude: 19.9', 'latitude: 62.1', 'latitude: -51.5'],
  ],
  [
    'copper of a season',
    inside,
    ['limits: { copper: { per_season: 0.5 kg/ha } }', 'limits: { copper: { per_season: 12 kg/ha } }'],
    ['limits: { copper: { per_season: 0.4 kg/ha } }', 'limits: { copper: { per_season: 12.1 kg/ha } }'],
  ],
  [
    'copper of years',
    inside,
    ['limits: { copper: { rolling: 60 kg/ha, years: 7 } }'],
    ['limits: { copper: { rolling: 61 kg/ha, years: 7 } }', 'limits: { copper: { rolling: 28 kg/ha } }'],
  ],
  [
    'wind',
    inside,
    ['limits: { wind: 2 m/s }', 'limits: { wind: 9 m/s }'],
    ['limits: { wind: 1.9 m/s }', 'limits: { wind: 9.1 m/s }'],
  ],
  [
    'picking',
    inside,
    ['harvest: { picking: 8 kg/h }', 'harvest: { picking: 200 kg/h }'],
    ['harvest: { picking: 7.9 kg/h }', 'harvest: { picking: 201 kg/h }'],
  ],
  [
    'crate',
    inside,
    ['harvest: { crate: 2 kg }', 'harvest: { crate: 500 kg }'],
    ['harvest: { crate: 1.9 kg }', 'harvest: { crate: 501 kg }'],
  ],
  [
    'juice',
    inside,
    ['harvest: { juice: 400 L/t }', 'harvest: { juice: 850 L/t }'],
    ['harvest: { juice: 399 L/t }', 'harvest: { juice: 851 L/t }'],
  ],
]

const walk = (text: string) => ({
  'seasons/2026/scouting.yaml': `- { date: 2026-07-20, block: upper, ${text} }\n`,
})
const work = (text: string) => ({
  'seasons/2026/work.yaml': `- { date: 2026-07-20, block: upper, job: tying, ${text} }\n`,
})
const walked = (organ: string) => (date: string) => ({
  'seasons/2026/scouting.yaml': `- { date: ${date}, block: upper, looked_at: { ${organ}: 100 }, found: {} }\n`,
})
const WALKS: Row[] = [
  [
    'looked at',
    walk,
    ['looked_at: { bunches: 2000 }, found: {}'],
    ['looked_at: { bunches: 2001 }, found: {}'],
  ],
  [
    'severity',
    walk,
    ['looked_at: { bunches: 100 }, found: { powdery: { bunches: 4, severity: 4 % } }'],
    ['looked_at: { bunches: 100 }, found: { powdery: { bunches: 4, severity: 4.1 % } }'],
  ],
  [
    'classes',
    walk,
    ['looked_at: { bunches: 100 }, found: { powdery: { classes: { 0: 90, 5: 10 } } }'],
    ['looked_at: { bunches: 100 }, found: { powdery: { classes: { 0: 90, 5: 11 } } }'],
  ],
  ['hours', work, ['hours: 32, people: 2'], ['hours: 32.1, people: 2']],
  [
    'hours in the times written',
    work,
    ['time: 09:00-11:00, people: 2, hours: 7'],
    ['time: 09:00-11:00, people: 2, hours: 7.1'],
  ],
  ['month of bunches', walked('bunches'), ['2026-04-01'], ['2026-03-31']],
  ['month of leaves', walked('leaves'), ['2026-03-01'], ['2026-02-28']],
  ['irrigation', work, ['water: 80 mm'], ['water: 81 mm']],
]

describe.each([
  ['unlikely-block', BLOCKS],
  ['unlikely-product', PRODUCTS],
  ['unlikely-sprayer', SPRAYERS],
  ['unlikely-spray', SPRAY_ROWS],
  ['unlikely-sample', [...SAMPLES, ...STEPS]],
  ['unlikely-crop', CROP],
  ['unlikely-pick', PICKS],
  ['unlikely-site', SITES],
  ['unlikely-walk', WALKS],
] as [string, Row[]][])('%s', (rule, rows) => {
  test.each(rows)('%s', (_, make, within, beyond) => {
    for (const value of within)
      expect({ value, found: findingsOf(rule, make(value)) }).toEqual({ value, found: [] })
    for (const value of beyond)
      expect({ value, count: findingsOf(rule, make(value)).length > 0 }).toEqual({ value, count: true })
  })
})
