import type { Row } from './row.ts'

const walk = (text: string) => ({
  'seasons/2026/scouting.yaml': `- { date: 2026-07-20, block: upper, ${text} }\n`,
})
const work = (text: string) => ({
  'seasons/2026/work.yaml': `- { date: 2026-07-20, block: upper, job: tying, ${text} }\n`,
})
const walked = (organ: string) => (date: string) => ({
  'seasons/2026/scouting.yaml': `- { date: ${date}, block: upper, looked_at: { ${organ}: 100 }, found: {} }\n`,
})
export const WALKS: Row[] = [
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
