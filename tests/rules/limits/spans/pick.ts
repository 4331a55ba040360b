import { type Row, told } from './row.ts'

const UPPER = 'name: Upper\nvariety: palava\narea: 0.4 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\n'
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
const PICKS_FILE = 'seasons/2026/picks.yaml'
const one = (date: string, text: string, id = 'upper') => `- { date: ${date}, block: ${id}, ${text} }\n`
/** What was picked in other years, in kg, with a pick of this year. */
const otherYears = (picks: Readonly<Record<number, string>>, now: string) => ({
  ...Object.fromEntries(Object.entries(picks).map(([year, text]) => [`seasons/${year}/picks.yaml`, text])),
  [PICKS_FILE]: now,
})
const years = (weight: number) => ({
  2023: one('2023-09-20', `weight: ${weight - 100} kg`),
  2024: one('2024-09-20', `weight: ${weight} kg`) + one('2024-09-20', 'weight: 5 kg', 'lower'),
  2025: one('2025-09-18', 'weight: 500 kg') + one('2025-09-20', `weight: ${weight - 400} kg`),
})
/** A sample of `upper` and a pick of 18.9 Brix on 20 September. */
const sampled = (text: string, id = 'upper') => ({
  'seasons/2026/samples.yaml': one(text.slice(0, 10), text.slice(12), id),
  [PICKS_FILE]: one('2026-09-20', 'weight: 900 kg, brix: 18.9'),
})
const staged = (stages: string, picks = one('2026-09-20', 'weight: 900 kg')) => ({
  'seasons/2026/stages.yaml': stages,
  [PICKS_FILE]: picks,
})
/** A count of `upper` on a day, and a pick on 20 September: `2026-09-15 | weight: 900 kg`. */
const countedBefore = (text: string) => {
  const [date, pick] = text.split(' | ') as [string, string]
  const fields =
    'bunches_per_vine: [10, 10, 10, 10, 10, 10], bunch_weight: [50 g, 50 g, 50 g, 50 g, 50 g, 50 g]'
  return {
    'blocks/upper.yaml': UPPER,
    'seasons/2026/crop.yaml': one(date, `${fields}, at: harvest`),
    [PICKS_FILE]: one('2026-09-20', pick),
  }
}
const stage = (date: string, at: number, id = 'upper') => one(date, `stage: ${at}`, id)
const untargeted = { 'blocks/upper.yaml': UPPER, 'varieties/palava.yaml': 'name: P\ncolour: white\n' }
/** Ripe is what the variety says, where the block does not. */
const byVariety = (brix: number) => ({
  'blocks/upper.yaml': UPPER,
  [PICKS_FILE]: one('2026-09-20', `weight: 900 kg, brix: ${brix}`),
})
export const PICKS: Row[] = [
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
  [
    'without people, hours or crates',
    pick,
    ['weight: 1 kg, people: 5', 'weight: 1 kg, hours: 9', 'weight: 900 kg, crates: 0'],
    ['weight: 900 kg, hours: 48'],
  ],
  ['low acid, low pH', pick, [], ['weight: 900 kg, ta: 1.9 g/L', 'weight: 900 kg, ph: 2.59']],
  ['crates of no known weight', twoPicks, ['crates: 3, rest: 5 %'], []],
  [
    'hands far off both what people do and what is reckoned with',
    usually,
    ['weight: 900 kg'],
    [
      'weight: 3.9 kg, people: 1, hours: 1',
      'weight: 4 kg, people: 1, hours: 1',
      'weight: 300 kg, people: 1, hours: 1',
      'weight: 301 kg, people: 1, hours: 1',
    ],
  ],
  [
    'crop of several picks',
    told({
      // 0.4 ha bears 16 t at 40 t/ha, of which 9 were picked on another block, in another year or are still to come.
      'on another block': {
        [PICKS_FILE]: one('2026-09-20', 'weight: 4900 kg') + one('2026-09-24', 'weight: 3900 kg', 'lower'),
      },
      'in another year': {
        'seasons/2025/picks.yaml': one('2025-09-20', 'weight: 9000 kg'),
        [PICKS_FILE]: one('2026-09-20', 'weight: 9000 kg'),
      },
      'dated ahead': {
        [PICKS_FILE]: one('2026-09-20', 'weight: 9000 kg') + one('2026-10-21', 'weight: 9000 kg'),
      },
      'of this year': {
        [PICKS_FILE]: one('2026-09-20', 'weight: 9000 kg') + one('2026-10-20', 'weight: 9000 kg'),
      },
    }),
    ['on another block', 'in another year', 'dated ahead'],
    ['of this year'],
  ],
  [
    'crop against other years',
    told({
      'as in other years': otherYears(years(1800), one('2026-09-20', 'weight: 1700 kg')),
      'a little under eight times': otherYears(years(1200), one('2026-09-20', 'weight: 9590 kg')),
      'more than an eighth': otherYears(years(1200), one('2026-09-20', 'weight: 151 kg')),
      'in two parts': otherYears(
        years(1200),
        one('2026-09-20', 'weight: 800 kg') + one('2026-09-24', 'weight: 100 kg'),
      ),
      'an eighth, in two parts': otherYears(
        years(1200),
        one('2026-09-20', 'weight: 70 kg') + one('2026-09-24', 'weight: 70 kg'),
      ),
      'the first year': { [PICKS_FILE]: one('2026-09-20', 'weight: 15 kg') },
      'little on another block': otherYears(
        { 2025: one('2025-09-20', 'weight: 9 kg', 'lower') },
        one('2026-09-20', 'weight: 900 kg'),
      ),
      'eight times': otherYears(years(1200), one('2026-09-20', 'weight: 9600 kg')),
      'an eighth': otherYears(years(1200), one('2026-09-20', 'weight: 150 kg')),
      'a tenth of the one other year': otherYears(
        { 2025: one('2025-09-20', 'weight: 900 kg') },
        one('2026-09-20', 'weight: 90 kg'),
      ),
      'a tenth, all thrown away': otherYears(
        years(1200),
        one('2026-09-20', 'weight: 120 kg, sorted_out: 121 kg'),
      ),
    }),
    [
      'as in other years',
      'a little under eight times',
      'more than an eighth',
      'in two parts',
      'an eighth, in two parts',
      'the first year',
      'little on another block',
    ],
    ['eight times', 'an eighth', 'a tenth of the one other year', 'a tenth, all thrown away'],
  ],
  [
    'sugar against the last sample',
    sampled,
    // 65 °Oe are 15.9 Brix, and 60 are 14.7.
    [
      '2026-09-15, brix: 14.9',
      '2026-09-15, brix: 22.9',
      '2026-09-09, brix: 12',
      '2026-09-21, brix: 12',
      '2026-09-15, ph: 3.1',
      '2026-09-15, oechsle: 65',
      '2026-09-15, brix: 12, fermenting: true',
    ],
    [
      '2026-09-15, brix: 14.8',
      '2026-09-15, brix: 23',
      '2026-09-10, brix: 14',
      '2026-09-20, brix: [13.8, 14, 14.2]',
      '2026-09-15, oechsle: 60',
    ],
  ],
  [
    'sugar against several samples',
    told({
      'of another block': sampled('2026-09-15, brix: 12', 'lower'),
      'the last decides': {
        ...sampled(''),
        'seasons/2026/samples.yaml':
          one('2026-09-12', 'brix: 14') + one('2026-09-15', 'brix: 17') + one('2026-09-18', 'ph: 3'),
      },
      'the last before the pick': {
        ...sampled(''),
        'seasons/2026/samples.yaml':
          one('2026-09-12', 'brix: 13') + one('2026-09-18', 'brix: 14') + one('2026-09-25', 'brix: 20'),
      },
      'far off the target too': {
        ...sampled(''),
        'seasons/2026/samples.yaml': one('2026-09-18', 'brix: 19'),
        [PICKS_FILE]: one('2026-09-20', 'weight: 900 kg, brix: 12'),
      },
      'a pick whose sugar was not read': {
        ...sampled('2026-09-15, brix: 12'),
        [PICKS_FILE]: one('2026-09-20', 'weight: 900 kg'),
      },
    }),
    ['of another block', 'the last decides', 'a pick whose sugar was not read'],
    ['the last before the pick', 'far off the target too'],
  ],
  [
    'sugar against what is ripe for the block, else for its variety',
    told({
      '12 Brix': byVariety(12),
      '28 Brix': byVariety(28),
      'no target at all': { ...untargeted, [PICKS_FILE]: one('2026-09-20', 'weight: 900 kg, brix: 10') },
      'another target': {
        ...untargeted,
        'blocks/upper.yaml': `${UPPER}targets: { ta: 6-8 g/L }\n`,
        'varieties/palava.yaml': 'name: P\ncolour: white\ntargets: { ta: 6-8 g/L }\n',
        [PICKS_FILE]: one('2026-09-20', 'weight: 900 kg, brix: 32'),
      },
      '11.9 Brix': byVariety(11.9),
      '28.1 Brix': byVariety(28.1),
      '9.9 Brix, of no must': byVariety(9.9),
      '32.1 Brix, without a target': {
        ...untargeted,
        [PICKS_FILE]: one('2026-09-20', 'weight: 900 kg, brix: 32.1'),
      },
    }),
    ['12 Brix', '28 Brix', 'no target at all', 'another target'],
    ['11.9 Brix', '28.1 Brix', '9.9 Brix, of no must', '32.1 Brix, without a target'],
  ],
  [
    'ripeness by the stages seen',
    told({
      'long turned': staged(stage('2026-09-02', 81)),
      'another block': staged(stage('2026-09-18', 81, 'lower') + stage('2026-09-25', 79, 'lower')),
      'the year before': {
        ...staged(''),
        'seasons/2025/stages.yaml': stage('2025-09-18', 81),
        'seasons/2026/stages.yaml': stage('2026-09-01', 81),
      },
      'leaves fallen, no ripening seen': staged(stage('2026-09-19', 91)),
      'green before the pick': staged(stage('2026-09-19', 79)),
      'a stage dated ahead': staged(stage('2026-10-21', 81)),
      'green, dated ahead': staged(stage('2026-10-21', 79)),
      'a variety of unknown pace, ten days on': { ...untargeted, ...staged(stage('2026-09-10', 81)) },
      'turned the week before': staged(stage('2026-09-12', 85) + stage('2026-09-18', 89)),
      'ripe for harvest the day before': staged(stage('2026-09-19', 89)),
      'softening ten days before': staged(stage('2026-09-10', 85)),
      'still green on the day': staged(stage('2026-09-10', 77) + stage('2026-09-20', 79)),
      'green in the year after': {
        'seasons/2025/picks.yaml': one('2025-09-20', 'weight: 900 kg'),
        [PICKS_FILE]: one('2026-09-20', 'weight: 900 kg'),
        'seasons/2026/stages.yaml': stage('2026-08-01', 75),
      },
      'still green on the day of looking': staged(stage('2026-10-20', 79)),
      'still green later': staged(
        stage('2026-08-20', 81) + stage('2026-09-25', 79) + stage('2026-09-27', 81),
      ),
      'a variety of unknown pace, nine days on': { ...untargeted, ...staged(stage('2026-09-11', 81)) },
      'both too sweet and too early': staged(
        stage('2026-09-12', 81),
        one('2026-09-20', 'weight: 900 kg, brix: 33'),
      ),
    }),
    [
      'long turned',
      'another block',
      'the year before',
      'leaves fallen, no ripening seen',
      'ripe for harvest the day before',
      'green before the pick',
      'green in the year after',
      'a stage dated ahead',
      'green, dated ahead',
      'a variety of unknown pace, ten days on',
    ],
    [
      'turned the week before',
      'softening ten days before',
      'still green on the day',
      'still green later',
      'still green on the day of looking',
      'a variety of unknown pace, nine days on',
      'both too sweet and too early',
    ],
  ],
  [
    'rest against later picks',
    told({
      'the last pick': {
        [PICKS_FILE]: one('2026-09-20', 'weight: 900 kg') + one('2026-09-24', 'weight: 900 kg, rest: 0 %'),
      },
      'the same day': {
        [PICKS_FILE]: one('2026-09-20', 'weight: 900 kg, rest: 0 %') + one('2026-09-20', 'weight: 300 kg'),
      },
      'another block': {
        [PICKS_FILE]:
          one('2026-09-20', 'weight: 900 kg, rest: 0 %') + one('2026-09-24', 'weight: 300 kg', 'lower'),
      },
      'the year after': {
        'seasons/2025/picks.yaml': one('2025-09-20', 'weight: 900 kg, rest: 0 %'),
        [PICKS_FILE]: one('2026-09-24', 'weight: 900 kg'),
      },
      'dated ahead': {
        [PICKS_FILE]: one('2026-09-20', 'weight: 900 kg, rest: 0 %') + one('2026-10-21', 'weight: 300 kg'),
      },
      'on the day of looking': {
        [PICKS_FILE]: one('2026-09-20', 'weight: 900 kg, rest: 0 %') + one('2026-10-20', 'weight: 300 kg'),
      },
    }),
    ['the last pick', 'the same day', 'another block', 'the year after', 'dated ahead'],
    ['on the day of looking'],
  ],
  [
    'entries of several lines, each named by the line of its figure',
    told({
      all: {
        'vineyard.yaml':
          'name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nharvest:\n  juice: 620 L/t\n  crate: 12 kg\n  picking: 40 kg/h\n',
        'seasons/2026/samples.yaml': '- date: 2026-09-15\n  block: upper\n  berries: 100\n  brix: 14\n',
        'seasons/2026/stages.yaml': '- date: 2026-09-15\n  block: upper\n  stage: 83\n',
        [PICKS_FILE]:
          '- date: 2026-09-20\n  block: upper\n  weight: 900 kg\n  people: 1\n  hours: 4\n  brix: 19\n  crates: 10\n  rest: 0 %\n- weight: 900 kg\n  block: upper\n  date: 2026-10-10\n',
      },
    }),
    [],
    ['all'],
  ],
  [
    // 2000 vines of 10 bunches of 50 g, counted at harvest: 1000 kg.
    'the bunches counted at harvest',
    countedBefore,
    [
      '2026-09-15 | weight: 1750 kg',
      '2026-09-15 | weight: 300 kg',
      '2026-09-15 | weight: 575 kg, rest: 0 %',
      '2026-08-29 | weight: 1760 kg',
    ],
    ['2026-09-15 | weight: 1760 kg', '2026-09-15 | weight: 570 kg, rest: 0 %'],
  ],
]
