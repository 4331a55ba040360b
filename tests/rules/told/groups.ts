import { dayAfter, EXTRA, type Files, label, SPRAYS, site, spray } from '../limits/both-sides.ts'
import { ERROR, NONE, type Told, WARNING } from './row.ts'

const part = (id: string) => `product: ${id}, rate: 3 kg/ha, for: powdery`
const season = (more: string, ids: string[]): Files => ({
  [EXTRA]: label({ more }),
  [SPRAYS]: ids
    .map((id, index) => spray({ date: dayAfter('2026-04-20', index * 12), products: [part(id)] }))
    .join(''),
})
const times = (count: number) => new Array<string>(count).fill('extra')
const errors = (count: number) => new Array<'error'>(count).fill('error')

export const RUNS: Told[] = [
  ['five times in a row, where the label allows one', errors(4), season('max_in_row: 1\n', times(5))],
  ['three times in a row, where only advice speaks', WARNING, season('', times(3))],
  ['twice in a row, where only advice speaks', NONE, season('', times(2))],
  ['the label allows more than advice does', NONE, season('max_in_row: 3\n', times(3))],
]

export const COUNTS: Told[] = [
  ['three times, with others between', NONE, season('', ['extra', 'sulphur', 'extra', 'sulphur', 'extra'])],
  [
    'four times, with others between',
    WARNING,
    season('', ['extra', 'sulphur', 'extra', 'sulphur', 'extra', 'sulphur', 'extra']),
  ],
]

const windy = (wind: string, of: { label?: string; site?: string } = {}): Files => ({
  ...(of.site === undefined ? {} : { 'vineyard.yaml': site(`wind: ${of.site}`) }),
  [EXTRA]: label({ more: of.label === undefined ? '' : `wind: ${of.label}\n` }),
  [SPRAYS]: spray({ products: [part('extra')], more: `  weather: { ${wind} }\n` }),
})
export const WIND: Told[] = [
  ['no limit is written, 6 m/s', NONE, windy('wind: 6 m/s')],
  ['no limit is written, a little more', WARNING, windy('wind: 6.1 m/s')],
  ['above the limit of the vineyard', ERROR, windy('wind: 5.1 m/s', { site: '5 m/s' })],
  [
    'above that of the label, which is lower',
    ERROR,
    windy('wind: 4.1 m/s', { site: '5 m/s', label: '4 m/s' }),
  ],
  [
    'above that of the vineyard, which is lower',
    ERROR,
    windy('wind: 4.1 m/s', { site: '4 m/s', label: '5 m/s' }),
  ],
  ['the wind not written', NONE, windy('temperature: 18 C', { site: '1 m/s' })],
]

const seen = (...stages: [date: string, stage: number, block?: string][]): Files => ({
  'seasons/2026/stages.yaml': stages
    .map(([date, stage, block = 'upper']) => `- block: ${block}\n  date: ${date}\n  stage: ${stage}\n`)
    .join(''),
})
export const STAGES: Told[] = [
  ['as vines grow', NONE, seen(['2026-05-20', 53], ['2026-06-10', 65], ['2026-07-01', 75])],
  [
    'of three the last two clash: the earlier of them is believed',
    WARNING,
    seen(['2026-05-20', 53], ['2026-06-10', 85], ['2026-07-01', 75]),
  ],
  [
    'one of three, the last, is too early',
    WARNING,
    seen(['2026-06-10', 65], ['2026-07-01', 75], ['2026-07-10', 53]),
  ],
  [
    'one of three, the first, is too late',
    WARNING,
    seen(['2026-05-20', 85], ['2026-06-10', 65], ['2026-07-01', 75]),
  ],
  ['of two that clash the earlier is believed', WARNING, seen(['2026-06-10', 75], ['2026-06-20', 65])],
  ['two stages back are how one looks', NONE, seen(['2026-06-10', 65], ['2026-06-20', 63])],
  ['of other blocks', NONE, seen(['2026-06-10', 75], ['2026-06-20', 65, 'lower'])],
]
