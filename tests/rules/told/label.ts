import { dayAfter, EXTRA, type Files, label, SPRAYS, spray } from '../limits/both-sides.ts'
import { ERROR, NONE, type Told, WARNING } from './row.ts'

/** A block that has an area, but doesn't say how many rows: four of them are an unknown part of it. */
const BARE: Files = {
  'blocks/bare.yaml': 'name: Bare\nvariety: palava\narea: 0.5 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\n',
}
const onBare = (part: string, date = '2026-06-10') =>
  spray({ date, products: [`product: extra, ${part}`], more: '  rows: 1-4\n' }).replace('upper', 'bare')
/** A label with these uses, and one spray of it. */
const book = (
  uses: string[],
  part: string,
  more: { stage?: number; kind?: string; water?: string } = {},
): Files => ({
  [EXTRA]: `name: Extra\nform: WG\nkind: ${more.kind ?? 'fungicide'}\nactives: [ { name: testazole, content: 100 g/kg, group: "3" } ]\nuses:\n${uses.map((use) => `  - { ${use} }\n`).join('')}`,
  [SPRAYS]: spray({
    products: [`product: extra, ${part}`],
    ...(more.water === undefined ? {} : { water: more.water }),
    more: more.stage === undefined ? '' : `  stage: ${more.stage}\n`,
  }),
})
const POWDERY = 'against: powdery, rate: 2-6 kg/ha, stages: 13-79'
const ROT = 'against: botrytis, rate: 4-6 kg/ha, stages: 68-89'
const DOWNY = 'against: downy, rate: 2-6 kg/ha'
const dose = 'rate: 5 kg/ha'

export const AUTHORISED: Told[] = [
  [
    'the line of its stages is named',
    ERROR,
    {
      ...book([DOWNY], `${dose}, for: downy`, { stage: 83 }),
      [EXTRA]: label().replace(
        '  - { against: powdery, rate: 0-900 kg/ha }',
        '  - against: downy\n    rate: 2-6 kg/ha\n    stages: 13-79',
      ),
    },
  ],
  ['against what the label names', NONE, book([DOWNY], `${dose}, for: downy`)],
  ['against what it does not name', ERROR, book([POWDERY, DOWNY], `${dose}, for: botrytis`)],
  ['two targets, one not named', ERROR, book([POWDERY, DOWNY], `${dose}, for: [downy, botrytis]`)],
  [
    'the label names one disease twice',
    ERROR,
    book([DOWNY, 'against: downy, rate: 1-2 kg/ha, stages: 68-89'], `${dose}, for: mites`),
  ],
  [
    'an adjuvant, which has no target of its own',
    NONE,
    book([DOWNY], `${dose}, for: botrytis`, { kind: 'adjuvant', stage: 89 }),
  ],
  ['it is not said against what', NONE, book([DOWNY], dose)],
  ['in its stages', NONE, book([POWDERY, ROT], `${dose}, for: powdery`, { stage: 79 })],
  [
    'after its stages, though another use reaches to there',
    ERROR,
    book([POWDERY, ROT], `${dose}, for: powdery`, { stage: 83 }),
  ],
  ['before its stages', ERROR, book([POWDERY, ROT], `${dose}, for: botrytis`, { stage: 65 })],
  [
    'against two, one of them out of its stages',
    ERROR,
    book([POWDERY, ROT], `${dose}, for: [powdery, botrytis]`, { stage: 83 }),
  ],
  [
    'against two, both in their stages',
    NONE,
    book([POWDERY, ROT], `${dose}, for: [powdery, botrytis]`, { stage: 75 }),
  ],
  ['it is not said against what, in the stages of one use', NONE, book([POWDERY, ROT], dose, { stage: 83 })],
  ['it is not said against what, outside of all', ERROR, book([POWDERY, ROT], dose, { stage: 9 })],
  [
    'it is not said against what, and one use has no stages',
    NONE,
    book([POWDERY, DOWNY], dose, { stage: 83 }),
  ],
  [
    'one disease in two spans of stages, in the later',
    NONE,
    book(
      ['against: downy, rate: 2-6 kg/ha, stages: 13-55', 'against: downy, rate: 2-6 kg/ha, stages: 68-79'],
      `${dose}, for: downy`,
      { stage: 71 },
    ),
  ],
  [
    'one disease in two spans of stages, between them',
    ERROR,
    book(
      ['against: downy, rate: 2-6 kg/ha, stages: 13-55', 'against: downy, rate: 2-6 kg/ha, stages: 68-79'],
      `${dose}, for: downy`,
      { stage: 60 },
    ),
  ],
  ['the stage was not written', NONE, book([POWDERY], `${dose}, for: powdery`)],
]

export const UNIT: Told[] = [
  ['in kg, as the label', NONE, book([DOWNY], 'rate: 3 kg/ha, for: downy')],
  ['in L, the label in kg', ERROR, book([DOWNY], 'rate: 3 L/ha, for: downy')],
  ['in kg, the label in L', ERROR, book(['against: downy, rate: 2-6 L/ha'], 'rate: 3 kg/ha, for: downy')],
  [
    'an amount in L, the label in g/L',
    ERROR,
    book(['against: downy, concentration: 5-10 g/L'], 'amount: 1 L, for: downy'),
  ],
  [
    'in kg, the label in g/L',
    NONE,
    book(['against: downy, concentration: 5-10 g/L'], 'amount: 1 kg, for: downy'),
  ],
  [
    'in kg, the label in mL/L',
    ERROR,
    book(['against: downy, concentration: 5-10 mL/L'], 'amount: 1 kg, for: downy'),
  ],
  [
    'in L, the label in mL/L',
    NONE,
    book(['against: downy, concentration: 5-10 mL/L'], 'amount: 1 L, for: downy'),
  ],
  [
    'in L, the label in kg for leaf wall',
    ERROR,
    book(['against: downy, rate: 1-2 kg/10000 m2 leaf wall'], 'rate: 1 L/ha, for: downy'),
  ],
  [
    'the label in %, which is either',
    NONE,
    book(['against: downy, concentration: 0.5-1 %'], 'rate: 3 L/ha, for: downy'),
  ],
  [
    'the label in %, and for the second use in kg',
    ERROR,
    book(['against: mites, concentration: 0.5-1 %', DOWNY], 'rate: 3 L/ha, for: downy'),
  ],
  [
    'the label in %, at most so many kg',
    ERROR,
    book(['against: downy, concentration: 0.5-1 %, max_rate: 9 kg/ha'], 'rate: 3 L/ha, for: downy'),
  ],
  ['a label in both', NONE, book([DOWNY, 'against: mites, rate: 2-6 L/ha'], 'rate: 3 L/ha, for: downy')],
  [
    'rows of a block that does not say how many it has, so that there is no dose',
    NONE,
    { ...BARE, ...book([DOWNY], ''), [SPRAYS]: onBare('amount: 1 L, for: downy') },
  ],
]

const BOTH_DOSES = 'against: downy, rate: 2-6 kg/ha, concentration: 10-15 g/L'
export const LEAST: Told[] = [
  [
    'against two, enough for the one that asks less',
    WARNING,
    book([POWDERY, ROT], 'rate: 3 kg/ha, for: [powdery, botrytis]'),
  ],
  [
    'the same, the label in the other order',
    WARNING,
    book([ROT, POWDERY], 'rate: 3 kg/ha, for: [powdery, botrytis]'),
  ],
  ['against the one that asks less', NONE, book([POWDERY, ROT], 'rate: 3 kg/ha, for: powdery')],
  ['it is not said against what: enough for one of them', NONE, book([ROT, POWDERY], 'rate: 3 kg/ha')],
  ['it is not said against what: enough for none', WARNING, book([ROT, POWDERY], 'rate: 1.9 kg/ha')],
  ['the same, the label in the other order', WARNING, book([POWDERY, ROT], 'rate: 1.9 kg/ha')],
  [
    'enough for ground area, too thin in the spray',
    WARNING,
    book([BOTH_DOSES], 'rate: 3 kg/ha, for: downy', { water: '400 L/ha' }),
  ],
  [
    'strong enough in the spray, too little for ground area',
    WARNING,
    book([BOTH_DOSES], 'rate: 1.5 kg/ha, for: downy', { water: '120 L/ha' }),
  ],
  [
    'too little of both',
    [...WARNING, ...WARNING],
    book([BOTH_DOSES], 'rate: 1.5 kg/ha, for: downy', { water: '400 L/ha' }),
  ],
  [
    'a most for ground area beside a concentration has no least',
    NONE,
    book(['against: downy, concentration: 1-5 g/L, max_rate: 9 kg/ha'], 'rate: 0.5 kg/ha, for: downy'),
  ],
  ['against what the label does not name', NONE, book([DOWNY], 'rate: 0.1 kg/ha, for: mites')],
]

const water = (applied: string, span = 'water: 150-1000 L/ha\n', more = ''): Files => ({
  [EXTRA]: label({ more: span }),
  [SPRAYS]: spray({ products: ['product: extra, rate: 3 kg/ha'], water: applied, more }),
})
export const WATER: Told[] = [
  ['the least of the label', NONE, water('150 L/ha')],
  ['a litre less', ERROR, water('149 L/ha')],
  ['the most of the label', NONE, water('1000 L/ha')],
  ['a litre more', ERROR, water('1001 L/ha')],
  ['in all: 60 L on 0.4 ha', NONE, water('60 L')],
  ['in all: 59 L on 0.4 ha', ERROR, water('59 L')],
  ['in all: 60 L on half of it', NONE, water('60 L', undefined, '  rows: 1-10\n')],
  ['in all: 201 L on half of it', ERROR, water('201 L', undefined, '  rows: 1-10\n')],
  ['a label with one volume', ERROR, water('300 L/ha', 'water: 400 L/ha\n')],
  ['a label that names no water', NONE, water('9 L/ha', '')],
  [
    'the water not written',
    NONE,
    { ...water(''), [SPRAYS]: water('W')[SPRAYS]!.replace('  water: W\n', '') },
  ],
]

const sprayed = (gap: number, ...parts: string[]) =>
  parts.map((part, index) => spray({ date: dayAfter('2026-05-01', index * gap), products: [part] })).join('')
const extra = (how = 'rate: 3 kg/ha', target = 'powdery') => `product: extra, ${how}, for: ${target}`
const rows = (text: string, ...spans: string[]) =>
  spans
    .reduce((all, span) => all.replace('  products', `  rows: ${span}\n  PRODUCTS`), text)
    .replaceAll('PRODUCTS', 'products')

export const TOO_MANY: Told[] = [
  [
    'the line of the limit of its use is named',
    ERROR,
    {
      [EXTRA]: label({ more: 'water: 100-900 L/ha\n' }).replace(
        '  - { against: powdery, rate: 0-900 kg/ha }',
        '  - against: powdery\n    rate: 0-900 kg/ha\n    max_per_season: 1',
      ),
      [SPRAYS]: sprayed(12, extra(), extra()),
    },
  ],
  [
    'twice, where twice is allowed',
    NONE,
    { [EXTRA]: label({ more: 'max_per_season: 2\n' }), [SPRAYS]: sprayed(12, extra(), extra()) },
  ],
  [
    'a third time',
    ERROR,
    { [EXTRA]: label({ more: 'max_per_season: 2\n' }), [SPRAYS]: sprayed(12, extra(), extra(), extra()) },
  ],
  [
    'a third and a fourth time',
    [...ERROR, ...ERROR],
    {
      [EXTRA]: label({ more: 'max_per_season: 2\n' }),
      [SPRAYS]: sprayed(12, extra(), extra(), extra(), extra()),
    },
  ],
  [
    'twice for a use that allows one',
    ERROR,
    {
      [EXTRA]: label({ use: 'rate: 1-6 kg/ha, max_per_season: 1' }),
      [SPRAYS]: sprayed(12, extra(), extra()),
    },
  ],
  [
    'once for each of two uses that allow one',
    NONE,
    {
      [EXTRA]: label({
        use: 'rate: 1-6 kg/ha, max_per_season: 1 }\n  - { against: downy, rate: 1-6 kg/ha, max_per_season: 1',
      }),
      [SPRAYS]: sprayed(12, extra(), extra('rate: 3 kg/ha', 'downy')),
    },
  ],
  [
    'against powdery where that was done before, and downy between',
    ERROR,
    {
      [EXTRA]: label({
        use: 'rate: 1-6 kg/ha, max_per_season: 1 }\n  - { against: downy, rate: 1-6 kg/ha, max_per_season: 1',
      }),
      [SPRAYS]: sprayed(12, extra(), extra('rate: 3 kg/ha', 'downy'), extra()),
    },
  ],
  ['without a most', NONE, { [EXTRA]: label(), [SPRAYS]: sprayed(12, extra(), extra(), extra()) }],
  [
    'all that is allowed in a season',
    NONE,
    { [EXTRA]: label({ more: 'max_total: 6 kg/ha\n' }), [SPRAYS]: sprayed(12, extra(), extra()) },
  ],
  [
    'more than that',
    ERROR,
    {
      [EXTRA]: label({ more: 'max_total: 6 kg/ha\n' }),
      [SPRAYS]: sprayed(12, extra(), extra('rate: 3.1 kg/ha')),
    },
  ],
  [
    'half of the block each time comes to half on the block',
    NONE,
    {
      [EXTRA]: label({ more: 'max_total: 3 kg/ha\n' }),
      [SPRAYS]: sprayed(12, extra(), extra()).replaceAll('  products', '  share: 50 %\n  products'),
    },
  ],
  [
    'half of the block three times',
    ERROR,
    {
      [EXTRA]: label({ more: 'max_total: 3 kg/ha\n' }),
      [SPRAYS]: sprayed(12, extra(), extra(), extra()).replaceAll('  products', '  share: 50 %\n  products'),
    },
  ],
  [
    'the same rows twice get all of it',
    ERROR,
    {
      [EXTRA]: label({ more: 'max_total: 5 kg/ha\n' }),
      [SPRAYS]: rows(sprayed(12, extra(), extra()), '1-10', '6-14'),
    },
  ],
  [
    'rows that are apart',
    NONE,
    {
      [EXTRA]: label({ more: 'max_total: 5 kg/ha\n' }),
      [SPRAYS]: rows(sprayed(12, extra(), extra()), '1-10', '11-20'),
    },
  ],
  [
    'one of the doses is in L, so that the sum is not known',
    NONE,
    {
      [EXTRA]: label({ more: 'max_total: 5 kg/ha\n' }),
      [SPRAYS]: sprayed(12, extra('rate: 9 L/ha'), extra(), extra()),
    },
  ],
  [
    'one of the doses is not known, so that the sum is not',
    NONE,
    {
      ...BARE,
      [EXTRA]: label({ more: 'max_total: 5 kg/ha\n' }),
      [SPRAYS]: onBare('amount: 1 kg', '2026-05-01') + onBare('rate: 9 kg/ha', '2026-05-13'),
    },
  ],
]
