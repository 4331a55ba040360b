import { EXTRA, type Files, label, SPRAYS, spray } from '../limits/both-sides.ts'
import { ERROR, HINT, NONE, type Told, WARNING } from './row.ts'

const holds = (name: string, group = '') =>
  `{ name: ${name}, content: 100 g/kg${group ? `, group: ${group}` : ''} }`
const COPPER = holds('copper hydroxide', 'M01')
const SULPHUR = holds('sulphur', 'M02')
const SODA = holds('potassium bicarbonate', 'NC')
const PHOSPHONATE = holds('potassium phosphonates', 'P07')
const part = (id: string, dose = 'rate: 1 kg/ha') => `product: ${id}, ${dose}, for: powdery`

/** Two products on 10 June, in one tank or on two days. */
const two = (first: string, second: string, when: 'tank' | 'apart' = 'tank'): Files => ({
  [EXTRA]: label({ actives: first }),
  'products/other.yaml': label({ actives: second }),
  [SPRAYS]:
    when === 'tank'
      ? spray({ products: [part('extra'), part('other')] })
      : spray({ products: [part('extra')] }) + spray({ date: '2026-06-11', products: [part('other')] }),
})

export const TOGETHER: Told[] = [
  ['copper and a phosphonate', WARNING, two(COPPER, PHOSPHONATE)],
  [
    'a phosphonate and copper, by names alone',
    WARNING,
    two(holds('fosetyl-Al'), holds('tribasic copper sulphate')),
  ],
  ['copper and captan', WARNING, two(COPPER, holds('captan', 'M04'))],
  ['bicarbonate and a phosphonate', WARNING, two(SODA, PHOSPHONATE)],
  ['bicarbonate and an acid', WARNING, two(SODA, holds('citric acid'))],
  ['bicarbonate and soap of fatty acids', NONE, two(SODA, holds('fatty acid potassium salts'))],
  ['bicarbonate and sulphur', NONE, two(SODA, SULPHUR)],
  ['copper and sulphur, the commonest mix', NONE, two(COPPER, SULPHUR)],
  ['copper, and a phosphonate the day after', NONE, two(COPPER, PHOSPHONATE, 'apart')],
]

const partner = (products: string[], more = 'with: [other, third]\n'): Files => ({
  [EXTRA]: label({ more }),
  'products/other.yaml': label({}),
  'products/third.yaml': label({}),
  [SPRAYS]: spray({ products: products.map((id) => part(id)) }),
})

export const PARTNER: Told[] = [
  ['alone', ERROR, partner(['extra'])],
  ['with one of those named', NONE, partner(['extra', 'third'])],
  ['its partner alone', NONE, partner(['other'])],
  ['a label that asks for none', NONE, partner(['extra'], '')],
]

const WEATHER = 'seasons/2026/weather.csv'
const SITE =
  'name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nweather: { columns: { time: date, min: min_c, max: max_c } }\n'
/** Highest temperatures of 10 June and the days after. */
const days = (...highs: number[]): Files => ({
  'vineyard.yaml': SITE,
  [WEATHER]: `date,min_c,max_c\n${highs.map((high, at) => `2026-06-${10 + at},12,${high}\n`).join('')}`,
})
/** Bicarbonate of so many g/L in the spray: 4 kg/ha in so much water. */
const soda = (water: string, weather: Files = {}, dose = 'rate: 4 kg/ha'): Files => ({
  [EXTRA]: label({ actives: SODA }),
  [SPRAYS]: spray({ products: [part('extra', dose)], water }),
  ...weather,
})

export const STRONG: Told[] = [
  ['10 g/L', NONE, soda('400 L/ha')],
  ['10.3 g/L, no weather known', HINT, soda('390 L/ha')],
  ['a tenth more by concentration', HINT, soda('400 L/ha', {}, 'concentration: 11 g/L')],
  ['strong, and both days cool', NONE, soda('300 L/ha', days(24.9, 24.9))],
  ['strong, and the next day warm', HINT, soda('300 L/ha', days(24.9, 25))],
  ['strong, and the next day not known', HINT, soda('300 L/ha', days(24.9))],
  [
    'strong, of something else',
    NONE,
    {
      [EXTRA]: label({}),
      [SPRAYS]: spray({ products: [part('extra', 'rate: 4 kg/ha')], water: '300 L/ha' }),
    },
  ],
]

/** Sulphur on 10 June at 20 °C, and how hot that day and the next were. */
const sulphurIn = (weather: Files, at = 20, actives = SULPHUR): Files => ({
  [EXTRA]: label({ actives }),
  [SPRAYS]: spray({ products: [part('extra')], more: `  weather: { temperature: ${at} C }\n` }),
  ...weather,
})

export const HOT_DAYS: Told[] = [
  ['29.4 °C the next day', NONE, sulphurIn(days(20, 29.4))],
  ['29.5 °C the next day', HINT, sulphurIn(days(20, 29.5))],
  ['34.9 °C on the day', HINT, sulphurIn(days(34.9, 20))],
  ['35 °C the next day', WARNING, sulphurIn(days(20, 35))],
  ['35 °C the day after next', NONE, sulphurIn(days(20, 20, 35))],
  ['hot when sprayed: said once', WARNING, sulphurIn(days(36, 36), 31)],
  ['something else in the heat', NONE, sulphurIn(days(36, 36), 20, holds('testazole'))],
]

const late = (date: string, more: Files = {}, colour = 'white'): Files => ({
  [EXTRA]: label({ actives: SULPHUR }),
  'varieties/palava.yaml': `name: Palava\ncolour: ${colour}\n`,
  [SPRAYS]: spray({ date, products: [part('extra')] }),
  ...more,
})
const PICK = { 'seasons/2026/picks.yaml': '- { date: 2026-09-20, block: upper, weight: 900 kg }\n' }
const TURNED = { 'seasons/2026/stages.yaml': '- { date: 2026-08-14, block: upper, stage: 81 }\n' }

export const LATE: Told[] = [
  ['34 days before the pick', HINT, late('2026-08-17', PICK)],
  ['35 days before the pick', NONE, late('2026-08-16', PICK)],
  ['of a red variety', HINT, late('2026-08-17', PICK, 'red')],
  ['of a red variety pressed for rosé', HINT, late('2026-08-17', PICK, 'red\nstyle: rose')],
  ['after the pick', NONE, late('2026-09-21', PICK)],
  ['from veraison on', HINT, late('2026-08-14', TURNED), '2026-08-20'],
  ['before veraison', NONE, late('2026-08-13', TURNED), '2026-08-20'],
]
