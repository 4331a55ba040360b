import { EXTRA, type Files, label, SPRAYS, site, spray } from '../limits/both-sides.ts'
import { ERROR, HINT, NONE, type Told, WARNING } from './row.ts'

interface Other {
  kind?: string
  actives?: string
  more?: string
  name?: string
}
const product = ({
  kind = 'plant strengthener',
  actives = '{ name: soap }',
  more = '',
  name = 'Other',
}: Other) => label({ kind, actives, more }).replace('name: Extra', `name: ${name}`)
const part = (id: string) => `product: ${id}, rate: 1 kg/ha, for: powdery`
/** `extra` on 10 June, whose label is kept apart; `other` so many days after, or in its tank. */
const apart = (keep: string, days: number | 'tank', other: Other = {}, own: Other = {}): Files => ({
  [EXTRA]: product({
    kind: 'fungicide',
    actives: '{ name: testazole, group: "3" }',
    name: 'Extra',
    ...own,
    more: keep === '' ? '' : `keep_apart: [ ${keep} ]\n`,
  }),
  'products/other.yaml': product(other),
  [SPRAYS]:
    days === 'tank'
      ? spray({ products: [part('extra'), part('other')] })
      : spray({ products: [part('extra')] }) +
        spray({ date: `2026-06-${10 + days}`, products: [part('other')] }),
})
const OIL = { kind: 'insecticide', actives: '{ name: filler }, { name: Paraffin oil, content: 800 g/kg }' }
const SULPHUR = { kind: 'fungicide', actives: '{ name: sulphur, content: 800 g/kg, group: M02 }' }
const OILY_SULPHUR = {
  kind: 'fungicide',
  actives: '{ name: sulphur, content: 300 g/kg, group: M02 }, { name: pine oil }',
}

export const APART: Told[] = [
  [
    'the line of its gap is named',
    ERROR,
    apart('', 1, { more: 'keep_apart:\n  - from: extra\n    gap: 9 d\n' }),
  ],
  ['a day before the gap is over', ERROR, apart('{ from: other, gap: 7 d }', 6)],
  ['when the gap is over', NONE, apart('{ from: other, gap: 7 d }', 7)],
  ['on the same day', ERROR, apart('{ from: other, gap: 7 d }', 0)],
  ['in one tank', ERROR, apart('{ from: other, gap: 7 d }', 'tank')],
  ['never in one tank, the gap nought', ERROR, apart('{ from: other, gap: 0 d }', 'tank')],
  ['the gap nought, a day later', NONE, apart('{ from: other, gap: 0 d }', 1)],
  [
    'of two gaps that fit, the longer',
    ERROR,
    apart('{ from: other, gap: 3 d }, { from: soap, gap: 9 d }', 8),
  ],
  ['the longer comes first', ERROR, apart('{ from: soap, gap: 9 d }, { from: other, gap: 3 d }', 8)],
  [
    'the label of the other asks longer',
    ERROR,
    apart('{ from: other, gap: 3 d }', 8, { more: 'keep_apart: [ { from: extra, gap: 9 d } ]\n' }),
  ],
  [
    'only the label of the other asks',
    ERROR,
    apart('', 8, { more: 'keep_apart: [ { from: extra, gap: 9 d } ]\n' }),
  ],
  ['from another thing', NONE, apart('{ from: lime, gap: 9 d }', 1)],
  ['from a part of a word', NONE, apart('{ from: so, gap: 9 d }', 1)],
  ['by its name', ERROR, apart('{ from: Strong Stuff, gap: 9 d }', 1, { name: 'Strong-Stuff' })],
  ['by its id, its name another', ERROR, apart('{ from: other, gap: 9 d }', 1, { name: 'Strong-Stuff' })],
  [
    'by its name, which ends in a bracket',
    ERROR,
    apart('{ from: strong stuff new, gap: 9 d }', 1, { name: 'Strong-Stuff (new)' }),
  ],
  ['by its kind, in capitals', ERROR, apart('{ from: Plant Strengthener, gap: 9 d }', 1)],
  [
    'by one of its actives',
    ERROR,
    apart('{ from: soap, gap: 9 d }', 1, { actives: '{ name: lecithin }, { name: Potassium soap (C12) }' }),
  ],
  [
    'by an active in brackets',
    ERROR,
    apart('{ from: "soap (C12)", gap: 9 d }', 1, { actives: '{ name: "Soap - C12 -" }' }),
  ],
  ['sulfur, as it is written in America', ERROR, apart('{ from: sulfur, gap: 9 d }', 1, SULPHUR)],
  ['a label that says oils', ERROR, apart('{ from: oils, gap: 9 d }', 1, OIL)],
  [
    'a label that says oils, and a product of that kind',
    ERROR,
    apart('{ from: oil, gap: 9 d }', 1, { kind: 'oils' }),
  ],
  ['oil thirteen days after sulphur, no label speaks', WARNING, apart('', 13, OIL, SULPHUR)],
  ['oil fourteen days after sulphur', NONE, apart('', 14, OIL, SULPHUR)],
  ['sulphur after oil', WARNING, apart('', 13, SULPHUR, OIL)],
  ['sulphur with oil', WARNING, apart('', 'tank', SULPHUR, OIL)],
  [
    'an oil by its kind, with no active of that name',
    WARNING,
    apart('', 13, { kind: 'oil', actives: '{ name: filler }' }, SULPHUR),
  ],
  [
    'a label speaks, and asks less than the common gap',
    NONE,
    apart('{ from: oil, gap: 7 d }', 8, OIL, SULPHUR),
  ],
  ['two oils', NONE, apart('', 3, OIL, OIL)],
  ['two of sulphur', NONE, apart('', 3, SULPHUR, SULPHUR)],
  ['an oil that holds sulphur too, after an oil', NONE, apart('', 3, OILY_SULPHUR, OIL)],
  [
    'soil is not oil',
    NONE,
    apart('', 3, { kind: 'soil conditioner', actives: '{ name: turmoil }' }, SULPHUR),
  ],
]

const copper = (date: string, metal: number, block = 'upper') =>
  spray({ date, products: [`product: copper, rate: ${metal / 0.35} kg/ha, for: downy`] }).replace(
    'upper',
    block,
  )
const season = (limit: string, ...sprays: string[]): Files => ({
  ...(limit === '' ? {} : { 'vineyard.yaml': site(`copper: { ${limit} }`) }),
  [SPRAYS]: sprays.join(''),
})
const sulphur = spray({ date: '2026-07-01', products: [part('sulphur')] })

const LIMITS = (text: string): Files => ({
  'vineyard.yaml': `name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nlimits:\n  wind: 5 m/s\n  copper:\n    ${text}\n`,
})

export const COPPER_SEASON: Told[] = [
  [
    'the line of its limit is named',
    ERROR,
    { ...LIMITS('years: 7\n    per_season: 3 kg/ha'), [SPRAYS]: copper('2026-05-10', 3.1) },
  ],
  [
    'what the limit allows',
    NONE,
    season('per_season: 3 kg/ha', copper('2026-05-10', 1), copper('2026-06-10', 2)),
  ],
  [
    'a little more',
    ERROR,
    season('per_season: 3 kg/ha', copper('2026-05-10', 1), copper('2026-06-10', 2.01)),
  ],
  [
    'and said again of each after it, not of a spray without copper',
    [...ERROR, ...ERROR],
    season('per_season: 3 kg/ha', copper('2026-05-10', 3.1), sulphur, copper('2026-07-10', 1)),
  ],
  [
    'each block by itself',
    NONE,
    season('per_season: 3 kg/ha', copper('2026-05-10', 2), copper('2026-06-10', 2, 'lower')),
  ],
  [
    'each season by itself',
    NONE,
    {
      ...season('per_season: 3 kg/ha', copper('2026-05-10', 2)),
      'seasons/2025/sprays.yaml': copper('2025-05-10', 2),
    },
  ],
  [
    'half of the block gets half',
    NONE,
    season('per_season: 3 kg/ha', copper('2026-05-10', 5).replace('  products', '  share: 50 %\n  products')),
  ],
  ['no limit of the vineyard', NONE, season('', copper('2026-05-10', 9))],
  ['a limit over years alone', NONE, season('rolling: 28 kg/ha, years: 7', copper('2026-05-10', 9))],
]

const years = (more: Files = {}): Files => ({
  'vineyard.yaml': site('copper: { rolling: 6 kg/ha, years: 2 }'),
  'seasons/2025/sprays.yaml': copper('2025-06-01', 3),
  ...more,
})

export const COPPER_YEARS: Told[] = [
  [
    'the line of its limit is named',
    ERROR,
    { ...LIMITS('years: 2\n    rolling: 6 kg/ha'), [SPRAYS]: copper('2026-06-01', 6.1) },
  ],
  [
    'two sprays of one day, of which only the second goes over',
    ERROR,
    years({ [SPRAYS]: copper('2026-06-01', 3) + copper('2026-06-01', 0.1) }),
  ],
  ['what the limit allows', NONE, years({ [SPRAYS]: copper('2026-06-01', 3) })],
  [
    'a little more, in the second of two sprays',
    ERROR,
    years({ [SPRAYS]: copper('2026-06-01', 3) + copper('2026-07-01', 0.1) }),
  ],
  [
    'not said of a spray without copper after it',
    ERROR,
    years({ [SPRAYS]: copper('2026-06-01', 3.1) + sulphur }),
  ],
  ['each block by itself', NONE, years({ [SPRAYS]: copper('2026-06-01', 3.1, 'lower') })],
]

const weather = (text: string, more: Other = {}, span = ''): Files => ({
  [EXTRA]: product({ kind: 'fungicide', actives: '{ name: testazole, group: "3" }', more: span, ...more }),
  [SPRAYS]: spray({ products: [part('extra')], more: text === '' ? '' : `  weather: { ${text} }\n` }),
})

export const DELTA: Told[] = [
  ['moist air', HINT, weather('temperature: 18 C, humidity: 92 %')],
  ['as it should be', NONE, weather('temperature: 20 C, humidity: 60 %')],
  ['air that begins to be dry', HINT, weather('temperature: 25 C, humidity: 40 %')],
  ['dry air', WARNING, weather('temperature: 30 C, humidity: 30 %')],
  ['very dry air', WARNING, weather('temperature: 25 C, humidity: 3 %')],
  ['the humidity was not written', NONE, weather('temperature: 35 C')],
  ['the temperature was not written', NONE, weather('humidity: 98 %')],
  ['nothing was written of the weather', NONE, weather('')],
]

const NAME = { actives: SULPHUR.actives }
export const COLD: Told[] = [
  ['sulphur, the temperature not written', NONE, weather('wind: 2 m/s', NAME)],
  ['sulphur a little below 15 °C', HINT, weather('temperature: 14.9 C', NAME)],
  ['sulphur at 10 °C', HINT, weather('temperature: 10 C', NAME)],
  ['sulphur below 10 °C', WARNING, weather('temperature: 9.9 C', NAME)],
  [
    'sulphur below the span of its label',
    WARNING,
    weather('temperature: 11 C', { ...NAME, more: 'temperature: 12-28 C\n' }),
  ],
  ['another product in the cold, no span on its label', NONE, weather('temperature: 4 C')],
  [
    'another product below the span of its label',
    WARNING,
    weather('temperature: 4 C', {}, 'temperature: 5-28 C\n'),
  ],
]

export const HEAT: Told[] = [
  ['sulphur, the temperature not written', NONE, weather('wind: 2 m/s', NAME)],
  ['sulphur at 30 °C', WARNING, weather('temperature: 30 C', NAME)],
  ['sulphur in heat and moist air', WARNING, weather('temperature: 33 C, humidity: 80 %', NAME)],
  [
    'sulphur above the span of its label',
    ERROR,
    weather('temperature: 29 C', { ...NAME, more: 'temperature: 12-28 C\n' }),
  ],
  ['oil above 32.2 °C', WARNING, weather('temperature: 32.3 C', OIL)],
  ['another product in the heat, no span on its label', NONE, weather('temperature: 36 C')],
  [
    'another product above the span of its label',
    ERROR,
    weather('temperature: 28.1 C', {}, 'temperature: 5-28 C\n'),
  ],
]

const held = (span: string, date: string): Files => ({
  [EXTRA]: label({ more: span }),
  [SPRAYS]: spray({ date, products: [part('extra')] }),
})
export const AUTHORISATION: Told[] = [
  ['on its last day', NONE, held('authorisation: { until: 2026-06-10 }\n', '2026-06-10')],
  ['a day later', ERROR, held('authorisation: { until: 2026-06-10 }\n', '2026-06-11')],
  ['on its first day', NONE, held('authorisation: { from: 2026-06-10 }\n', '2026-06-10')],
  ['a day before', ERROR, held('authorisation: { from: 2026-06-10 }\n', '2026-06-09')],
  ['a number without days', NONE, held('authorisation: { number: T-9 }\n', '2026-06-09')],
  ['no authorisation written', NONE, held('', '2026-06-09')],
]
