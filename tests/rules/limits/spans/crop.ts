import { type Row, told } from './row.ts'

const crop = (text: string) => ({
  'seasons/2026/crop.yaml': `- { date: 2026-08-05, block: upper, at: lag, ${text} }\n`,
})
const weighed = (text: string) => ({
  'seasons/2026/crop.yaml': `- { block: upper, bunch_weight: 50 g, date: ${text} }\n`,
  'seasons/2026/stages.yaml': '- { date: 2026-08-14, block: upper, stage: 81 }\n',
})
const UPPER = 'name: Upper\nvariety: palava\narea: 0.4 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\n'
/** On 2000 vines of 0.4 ha: 40 t/ha are 8 kg a vine. */
const borne = (text: string) => ({ ...crop(text), 'blocks/upper.yaml': UPPER })
const turned = (stages: string) => ({
  'seasons/2026/crop.yaml': '- { date: 2026-08-16, block: upper, bunch_weight: 50 g, at: harvest }\n',
  'seasons/2026/stages.yaml': stages,
})
const stage = (date: string, at: number, block = 'upper') =>
  `- { date: ${date}, block: ${block}, stage: ${at} }\n`
export const CROP: Row[] = [
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
  [
    'bunches of a list',
    crop,
    [
      'bunches_per_vine: [20, 20, 20, 99]',
      'bunches_per_vine: [20, 20, 20, 4]',
      'bunches_per_vine: [10, 10, 50]',
      'bunches_per_vine: [0, 0, 0, 9]',
      'bunches_per_vine: [10, 10, 10, 0]',
    ],
    ['bunches_per_vine: [20, 20, 20, 100]', 'bunches_per_vine: 121', 'bunches_per_vine: [5, 5, 5, 125]'],
  ],
  [
    'bunch of a list',
    crop,
    ['bunch_weight: [50 g, 50 g, 300 g]'],
    ['bunch_weight: [7 g, 60 g, 60 g, 60 g, 400 g]'],
  ],
  [
    'crop of bunches and weights',
    borne,
    ['bunches_per_vine: 40, bunch_weight: 200 g', 'bunches_per_vine: 110', 'bunch_weight: 900 g'],
    ['bunches_per_vine: 40, bunch_weight: 201 g', 'bunches_per_vine: [38, 42], bunch_weight: [190 g, 220 g]'],
  ],
  [
    'bunches counted in winter, when none need hang',
    told({
      counted: {
        'seasons/2026/crop.yaml': '- { date: 2026-02-01, block: upper, bunches_per_vine: 20, at: lag }\n',
      },
    }),
    ['counted'],
    [],
  ],
  [
    'ripening that was seen',
    told({
      'on another block': turned(stage('2026-08-14', 81, 'lower')),
      'the year before': {
        ...turned(''),
        'seasons/2025/stages.yaml': stage('2025-08-20', 81),
        'seasons/2026/stages.yaml': stage('2026-08-09', 81),
      },
      'dated ahead': turned(stage('2026-10-21', 81)),
      'not yet': turned(stage('2026-08-14', 79)),
      'on the day of looking': turned(stage('2026-10-20', 81)),
      'ripe for harvest': turned(stage('2026-08-14', 89)),
      'further on': turned(stage('2026-08-02', 79) + stage('2026-08-14', 85)),
    }),
    ['on another block', 'the year before', 'dated ahead', 'not yet', 'ripe for harvest'],
    ['on the day of looking', 'further on'],
  ],
  [
    'a stage of several lines',
    told({ seen: turned('- date: 2026-08-14\n  block: upper\n  stage: 83\n') }),
    [],
    ['seen'],
  ],
]
