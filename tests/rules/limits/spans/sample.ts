import { type Row, told } from './row.ts'

const sample = (text: string) => ({
  'seasons/2026/samples.yaml': `- { date: 2026-09-10, block: upper, ${text} }\n`,
})
export const SAMPLES: Row[] = [
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
const FILE = 'seasons/2026/samples.yaml'
const one = (date: string, text: string, block = 'upper') => `- { date: ${date}, block: ${block}, ${text} }\n`
/** A sample, and another some days after it: `brix: 18 | 14 d | brix: 17`. */
const twice = (text: string) => {
  const [first, days, second] = text.split(' | ') as [string, string, string]
  const date = new Date(Date.UTC(2026, 7, 20 + Number.parseInt(days, 10))).toISOString().slice(0, 10)
  return { [FILE]: one('2026-08-20', first) + one(date, second) }
}
/** Three samples, `brix: 16 | 7 d | brix: 20 | 7 d | brix: 18`. */
const thrice = (text: string) => {
  const [first, days, second, more, third] = text.split(' | ') as [string, string, string, string, string]
  const after = (count: number) => new Date(Date.UTC(2026, 7, 10 + count)).toISOString().slice(0, 10)
  const [one_, two] = [Number.parseInt(days, 10), Number.parseInt(more, 10)]
  return { [FILE]: one(after(0), first) + one(after(one_), second) + one(after(one_ + two), third) }
}
const picked = (samples: string, picks: string) => ({ [FILE]: samples, 'seasons/2026/picks.yaml': picks })
const stages = (samples: string, text: string) => ({ [FILE]: samples, 'seasons/2026/stages.yaml': text })
const at = (latitude: number, date: string) => ({
  'vineyard.yaml': `name: T\ntimezone: Africa/Nairobi\nlatitude: ${latitude}\n`,
  [`seasons/${Number(date.slice(0, 4)) + (Number(date.slice(5, 7)) >= (latitude < 0 ? 6 : 11) ? 1 : 0)}/samples.yaml`]:
    one(date, 'brix: 9'),
})
export const STEPS: Row[] = [
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
  ['acid up', after, ['ta: 14 g/L'], ['ta: 14.1 g/L']],
  ['acid down', after, ['ta: 9.4 g/L'], ['ta: 9.3 g/L']],
  [
    'sugar down over days',
    twice,
    [
      'brix: 18 | 13 d | brix: 16.1',
      'brix: 18 | 14 d | brix: 17.1',
      'brix: 18 | 46 d | brix: 12',
      'brix: 18 | 0 d | brix: 14',
    ],
    ['brix: 18 | 13 d | brix: 16', 'brix: 18 | 14 d | brix: 17', 'brix: 18 | 45 d | brix: 16'],
  ],
  [
    'sugar up over days',
    twice,
    ['brix: 14 | 4 d | brix: 18', 'brix: 14 | 2 d | brix: 17', 'brix: 14 | 20 d | brix: 20'],
    ['brix: 14 | 4 d | brix: 18.1', 'brix: 14 | 2 d | brix: 17.1'],
  ],
  [
    'pH over days',
    twice,
    ['ph: 3 | 5 d | ph: 3.4', 'ph: 3 | 20 d | ph: 3.59', 'ph: 3.59 | 20 d | ph: 3'],
    ['ph: 3 | 13 d | ph: 3.41', 'ph: 3.6 | 19 d | ph: 3'],
  ],
  [
    'acid over days',
    twice,
    [
      'ta: 12 g/L | 5 d | ta: 14 g/L',
      'ta: 14 g/L | 7 d | ta: 9.9 g/L',
      'ta: 20 g/L | 5 d | ta: 14 g/L',
      'ta: 20 g/L | 2 d | ta: 15 g/L',
      'ta: 20 g/L | 20 d | ta: 9 g/L',
    ],
    ['ta: 12 g/L | 40 d | ta: 14.1 g/L', 'ta: 20 g/L | 5 d | ta: 13.9 g/L', 'ta: 14 g/L | 7 d | ta: 9.8 g/L'],
  ],
  [
    'figures on another scale',
    twice,
    [
      'oechsle: 70 | 7 d | brix: 17.5',
      // 7.84 g/L as sulphuric acid are 12 as tartaric; 9.6 mL of a tenth normal on 10 mL of juice are 7.2 g/L.
      'ta: 7.84 g/L, ta_as: sulphuric | 7 d | ta: 11 g/L',
      'ta: 8 g/L | 7 d | titration: { sample: 10 mL, base: 9.6 mL, normality: 0.1 }',
      'brix: 18 | 7 d | brix: 14, fermenting: true',
    ],
    [
      'oechsle: 75 | 7 d | baume: 8',
      'baume: 10 | 7 d | density: 1.06',
      'density: 1.075 | 7 d | oechsle: 60',
      'titration: { sample: 10 mL, base: 9.6 mL, normality: 0.1 } | 7 d | ta: 11 g/L',
      'ta: 7 g/L | 7 d | titration: { sample: 10 mL, base: 19.6 mL, normality: 0.1 }',
    ],
  ],
  [
    'out of both neighbours, over days',
    thrice,
    [
      'ph: 3 | 15 d | ph: 3.4 | 16 d | ph: 3.05',
      'brix: 16 | 0 d | brix: 12 | 0 d | brix: 16',
      'brix: 15 | 2 d | brix: 18 | 10 d | brix: 18',
      'ta: 14 g/L | 7 d | ta: 11.6 g/L | 7 d | ta: 11.5 g/L',
      // Nearer to the end: half of the way would be told.
      'ta: 12 g/L | 12 d | ta: 9.6 g/L | 2 d | ta: 10 g/L',
    ],
    [
      'ph: 3 | 15 d | ph: 3.4 | 15 d | ph: 3.05',
      'ph: 3 | 7 d | ph: 3.35 | 7 d | ph: 3.1',
      'ta: 12 g/L | 7 d | ta: 8.4 g/L | 7 d | ta: 10 g/L',
      'oechsle: 66 | 7 d | oechsle: 84 | 7 d | baume: 9.5',
    ],
  ],
  [
    'several samples',
    told({
      'two blocks': { [FILE]: one('2026-09-01', 'brix: 18') + one('2026-09-08', 'brix: 14', 'lower') },
      'two years': {
        [FILE]: one('2026-07-20', 'brix: 10'),
        'seasons/2025/samples.yaml': one('2025-09-20', 'brix: 20'),
      },
      'sugar between two of acid': {
        [FILE]:
          one('2026-09-01', 'brix: 17, ta: 12 g/L') +
          one('2026-09-04', 'ph: 3') +
          one('2026-09-08', 'brix: 17.8, ta: 11 g/L'),
      },
      'the first decides nothing': {
        [FILE]:
          one('2026-09-01', 'brix: 19') + one('2026-09-08', 'brix: 17.9') + one('2026-09-15', 'brix: 17.3'),
      },
      'against the last that has it': {
        [FILE]:
          one('2026-09-01', 'brix: 12') +
          one('2026-09-08', 'brix: 18') +
          one('2026-09-12', 'ph: 3') +
          one('2026-09-16', 'brix: 16'),
      },
      'two of one day, and one after': {
        [FILE]:
          one('2026-09-01', 'brix: 18') + one('2026-09-01', 'brix: 17') + one('2026-09-08', 'brix: 14.9'),
      },
    }),
    ['two blocks', 'two years', 'sugar between two of acid', 'the first decides nothing'],
    ['against the last that has it', 'two of one day, and one after'],
  ],
  [
    'one reading in a list',
    sample,
    [
      'brix: [18, 26]',
      'brix: [10, 28]',
      'brix: [10, 18.1]',
      'ph: [3, 3, 3.59]',
      'ta: [10 g/L, 10 g/L, 18 g/L]',
      'oechsle: [70, 70, 105]',
      'baume: [9, 9, 14]',
      'density: [1.07, 1.07, 1.105]',
      'brix: [18, 18, 18, 22.9]',
      'brix: [16, 17, 18, 19, 22.9]',
      'brix: [17, 18, 18, 19, 22.8]',
      'brix: [17, 17, 18, 19, 24]',
      'baume: [9, 9, 9, 9, 12]',
    ],
    [
      'ph: [3, 3, 3.61]',
      'ta: [10 g/L, 10 g/L, 18.1 g/L]',
      'oechsle: [70, 70, 106]',
      'baume: [9, 9, 14.1]',
      'density: [1.07, 1.07, 1.106]',
      'brix: [18, 18.1, 18, 17.9, 22.9]',
      'brix: [17, 17, 18, 19, 24.1]',
      'baume: [9, 9, 9, 9, 12.1]',
      'brix: [18, 18, 31]',
      'brix: [2, 18, 18]',
    ],
  ],
  [
    'temperature of juice',
    sample,
    ['temperature: 4 C, brix: 18', 'temperature: 40 C, brix: 18'],
    ['temperature: 3.9 C, brix: 18', 'temperature: 40.1 C, brix: 18'],
  ],
  [
    'ripening that was seen',
    told({
      'on another block': stages(
        one('2026-08-01', 'brix: 14'),
        '- { date: 2026-08-14, block: lower, stage: 81 }\n',
      ),
      'dated ahead': stages(
        one('2026-08-01', 'brix: 14'),
        '- { date: 2026-10-21, block: upper, stage: 81 }\n',
      ),
      'green berries': stages(
        one('2026-08-01', 'brix: 12.9'),
        '- { date: 2026-08-14, block: upper, stage: 81 }\n',
      ),
      'no sugar read': stages(
        one('2026-08-01', 'ph: 2.8'),
        '- { date: 2026-08-14, block: upper, stage: 81 }\n',
      ),
      'sweet, before it': stages(
        one('2026-08-01', 'brix: 13'),
        '- { date: 2026-08-14, block: upper, stage: 81 }\n',
      ),
      'only its softening was written down': stages(
        one('2026-08-01', 'brix: 13'),
        '- { date: 2026-08-14, block: upper, stage: 85 }\n',
      ),
      'by the first of several': stages(
        one('2026-08-01', 'oechsle: 60'),
        '- { date: 2026-08-02, block: upper, stage: 79 }\n- { date: 2026-08-14, block: upper, stage: 83 }\n- { date: 2026-08-30, block: upper, stage: 85 }\n',
      ),
    }),
    [
      'on another block',
      'dated ahead',
      'green berries',
      'no sugar read',
      'only its softening was written down',
    ],
    ['sweet, before it', 'by the first of several'],
  ],
  [
    'picks of the block',
    told({
      'of another block': picked(one('2026-09-20', 'brix: 18'), one('2026-09-10', 'weight: 90 kg', 'lower')),
      'of the year before': {
        [FILE]: one('2026-09-20', 'brix: 18'),
        'seasons/2025/picks.yaml': one('2025-09-10', 'weight: 90 kg'),
      },
      'some still hangs': picked(
        one('2026-09-20', 'brix: 18'),
        one('2026-09-10', 'weight: 90 kg') + one('2026-09-12', 'weight: 90 kg, rest: 40 %'),
      ),
      'dated ahead': picked(
        one('2026-10-20', 'brix: 18'),
        one('2026-09-10', 'weight: 90 kg') + one('2026-10-21', 'weight: 90 kg'),
      ),
      'later ones, all taken': picked(
        one('2026-09-20', 'brix: 18'),
        one('2026-09-10', 'weight: 90 kg, rest: 40 %') + one('2026-09-12', 'weight: 90 kg'),
      ),
    }),
    ['of another block', 'of the year before', 'some still hangs'],
    ['dated ahead', 'later ones, all taken'],
  ],
  [
    'time of year, north and south',
    told({
      'June in the north': at(45, '2026-06-01'),
      'December in the north': at(45, '2025-12-31'),
      'December in the south': at(-35, '2025-12-01'),
      'June in the south': at(-35, '2026-06-30'),
      'near the equator': at(24.9, '2026-03-01'),
      'near the equator, south': at(-24.9, '2026-07-01'),
      'May in the north': at(45, '2026-05-31'),
      'January in the north': at(25, '2026-01-01'),
      'November in the south': at(-25, '2025-11-30'),
    }),
    ['June in the north', 'December in the north', 'December in the south', 'near the equator'],
    ['May in the north', 'January in the north', 'November in the south'],
  ],
]
