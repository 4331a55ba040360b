import { EXTRA, type Files, label, SPRAYS, spray } from '../limits/both-sides.ts'
import { HINT, NONE, type Told, WARNING } from './row.ts'

const SAMPLES = 'seasons/2026/samples.yaml'
const PRUNED = 'seasons/2026/work.yaml'
const sample = (more: string) => `- { date: 2026-09-05, block: upper, ${more} }\n`
const work = (more: string) => `- { date: 2026-03-02, block: upper, job: pruning, ${more} }\n`
const extra = 'product: extra, rate: 3 kg/ha, for: powdery'
const sulphur = 'product: sulphur, rate: 3 kg/ha, for: powdery'
const on = (more: string, products = [extra], blocks = '[upper]') =>
  spray({ date: '2026-06-01', products, more }).replace('[upper]', blocks)
const twice = (first: string, second: string): Files => ({ [EXTRA]: label(), [SPRAYS]: first + second })

export const TWICE: Told[] = [
  [
    'one sample, twice',
    WARNING,
    { [SAMPLES]: sample('berries: 100, brix: 16.5') + sample('berries: 100, brix: 16.5') },
  ],
  [
    'one sample, its figures in another order',
    WARNING,
    { [SAMPLES]: sample('berries: 100, brix: 16.5') + sample('brix: 16.5, berries: 100') },
  ],
  [
    'one sample, with a note and another instrument',
    WARNING,
    {
      [SAMPLES]:
        sample('berries: 100, brix: 16.5, note: cool') +
        sample('berries: 100, brix: 16.5, instrument: bench'),
    },
  ],
  ['one sample, three times', [...WARNING, ...WARNING], { [SAMPLES]: sample('brix: 16.5').repeat(3) }],
  [
    'two samples of a day',
    NONE,
    { [SAMPLES]: sample('berries: 100, brix: 16.5') + sample('berries: 100, brix: 16.6') },
  ],
  [
    'two samples of a day, and the first again',
    WARNING,
    { [SAMPLES]: sample('brix: 16.5') + sample('brix: 16.6') + sample('brix: 16.5') },
  ],
  [
    'the same of another block',
    NONE,
    { [SAMPLES]: sample('brix: 16.5') + sample('brix: 16.5').replace('upper', 'lower') },
  ],
  [
    'the same on another day',
    NONE,
    { [SAMPLES]: sample('brix: 16.5') + sample('brix: 16.5').replace('09-05', '09-06') },
  ],
  [
    'work, by two people who each wrote it',
    WARNING,
    { [PRUNED]: work('hours: 6, who: Ada') + work('hours: 6, who: Ben') },
  ],
  ['work, other hours', NONE, { [PRUNED]: work('hours: 6') + work('hours: 5') }],
  ['a spray, one with its time and one without', WARNING, twice(on('  time: 06:00-07:00\n'), on(''))],
  ['a spray, first without its time and then with it', WARNING, twice(on(''), on('  time: 06:00-07:00\n'))],
  ['a spray at two times', NONE, twice(on('  time: 06:00-07:00\n'), on('  time: 18:00-19:00\n'))],
  [
    'a spray, its products in another order',
    WARNING,
    twice(on('', [extra, sulphur]), on('', [sulphur, extra])),
  ],
  ['a spray, with one product more', NONE, twice(on('', [extra]), on('', [extra, sulphur]))],
  [
    'a spray of two blocks, and again of one of them',
    WARNING,
    twice(on('', [extra], '[lower, upper]'), on('')),
  ],
  ['a spray of one block, and again of two', WARNING, twice(on(''), on('', [extra], '[lower, upper]'))],
  ['a spray of rows that are apart', NONE, twice(on('  rows: 1-8\n'), on('  rows: 9-20\n'))],
]

const KINDS: [file: string, text: string][] = [
  ['sprays', on('').replace('2026-06-01', '2026-09-05')],
  [
    'scouting',
    '- { date: 2026-09-05, block: upper, looked_at: { bunches: 100 }, found: { powdery: { bunches: 4 } } }\n',
  ],
  ['samples', sample('brix: 16.5')],
  ['stages', '- { date: 2026-09-05, block: upper, stage: 85 }\n'],
  ['crop', '- { date: 2026-09-05, block: upper, bunches_per_vine: [18, 22], at: lag }\n'],
  ['picks', '- { date: 2026-09-05, block: upper, weight: 900 kg }\n'],
  ['work', '- { date: 2026-09-05, block: upper, job: mowing }\n'],
]

export const AHEAD: Told[] = [
  ...KINDS.flatMap(([kind, text]): Told[] => [
    [
      `${kind}: on the day of looking`,
      NONE,
      { [EXTRA]: label(), [`seasons/2026/${kind}.yaml`]: text },
      '2026-09-05',
    ],
    [
      `${kind}: a day later`,
      WARNING,
      { [EXTRA]: label(), [`seasons/2026/${kind}.yaml`]: text },
      '2026-09-04',
    ],
  ]),
  [
    'stock counted on the day of looking',
    NONE,
    { [EXTRA]: label({ more: 'stock: 9 kg\nstocked: 2026-09-05\n' }) },
    '2026-09-05',
  ],
  [
    'stock counted a day later',
    WARNING,
    { [EXTRA]: label({ more: 'stock: 9 kg\nstocked: 2026-09-05\n' }) },
    '2026-09-04',
  ],
  [
    'sprayer measured on the day of looking',
    NONE,
    { 'sprayers/mounted.yaml': 'name: M\ntank: 200 L\ncalibrated: 2026-09-05\n' },
    '2026-09-05',
  ],
  [
    'sprayer measured a day later',
    WARNING,
    { 'sprayers/mounted.yaml': 'name: M\ntank: 200 L\ncalibrated: 2026-09-05\n' },
    '2026-09-04',
  ],
]

const measured = (calibrated: string, sprays: string[], sprayer = '  sprayer: mounted\n'): Files => ({
  'sprayers/mounted.yaml': `name: M\ntank: 200 L\nflow: 5.5 L/min\n${calibrated}`,
  [EXTRA]: label(),
  ...Object.fromEntries(
    [...new Set(sprays.map((date) => date.slice(0, 4)))].map((year) => [
      `seasons/${year}/sprays.yaml`,
      sprays
        .filter((date) => date.startsWith(year))
        .map((date) => spray({ date, products: [extra], more: sprayer }))
        .join(''),
    ]),
  ),
})

export const MEASURED: Told[] = [
  [
    'the line of the date of spraying is named',
    WARNING,
    {
      ...measured('calibrated: 2016-04-01\n', []),
      [SPRAYS]: on('  sprayer: mounted\n').replace(
        '- date: 2026-06-01\n  blocks: [upper]',
        '- blocks: [upper]\n  date: 2026-06-01',
      ),
    },
  ],
  ['a year before', NONE, measured('calibrated: 2025-06-01\n', ['2026-06-01'])],
  ['a year and two days before', HINT, measured('calibrated: 2025-05-30\n', ['2026-06-01'])],
  ['said once in a season', HINT, measured('calibrated: 2025-04-01\n', ['2026-06-01', '2026-06-12'])],
  [
    'and again in the next season',
    [...HINT, ...HINT],
    measured('calibrated: 2024-04-01\n', ['2025-06-01', '2026-06-01']),
  ],
  ['five years before', HINT, measured('calibrated: 2021-05-28\n', ['2026-06-01'])],
  [
    'more than five years before, a slip of the year: said once at the sprayer',
    WARNING,
    measured('calibrated: 2016-04-01\n', ['2025-06-01', '2026-06-01']),
  ],
  ['never measured', NONE, measured('', ['2026-06-01'])],
  ['by what was sprayed is not written', NONE, measured('calibrated: 2016-04-01\n', ['2026-06-01'], '')],
]

const PICK = 'date: 2026-09-29, block: upper'
const picked = (...rest: string[]) => rest.map((one) => `- { ${PICK}, ${one} }\n`).join('')
const tank = (what: string, rest = '') =>
  `- { date: 2026-06-14, blocks: [upper], water: 300 L/ha, products: [ ${what} ]${rest} }\n`
const SULPHUR = '{ product: sulphur, rate: 3 kg/ha, for: powdery }'
const COPPER = '{ product: copper, rate: 1 kg/ha, for: downy }'

export const TWICE_A_DAY: Told[] = [
  ['two loads of a day', ['hint'], { 'seasons/2026/picks.yaml': picked('weight: 900 kg', 'weight: 700 kg') }],
  [
    'two picks alike in all but their weight',
    WARNING,
    {
      'seasons/2026/picks.yaml': picked(
        'weight: 1820 kg, people: 6, hours: 5.5, brix: 20.8',
        'weight: 1280 kg, people: 6, hours: 5.5, brix: 20.8',
      ),
    },
  ],
  [
    'one pick typed twice, which is told as such',
    NONE,
    { 'seasons/2026/picks.yaml': picked('weight: 900 kg', 'weight: 900 kg, crates: 75') },
  ],
  ['a split tank mix', ['hint'], { [SPRAYS]: tank(SULPHUR) + tank(COPPER) }],
  ['one product in both', WARNING, { [SPRAYS]: tank(SULPHUR) + tank(`${SULPHUR}, ${COPPER}`) }],
  [
    'one product in both, at other times',
    ['hint'],
    {
      [SPRAYS]: tank(SULPHUR, ', time: 07:00-08:00') + tank(`${SULPHUR}, ${COPPER}`, ', time: 19:00-20:00'),
    },
  ],
  [
    'on other rows, on other blocks, on other days',
    NONE,
    {
      [SPRAYS]:
        tank(SULPHUR, ', rows: 1-8') +
        tank(COPPER, ', rows: 9-20') +
        tank(COPPER).replace('upper', 'lower') +
        tank(COPPER).replace('06-14', '06-15'),
    },
  ],
]
