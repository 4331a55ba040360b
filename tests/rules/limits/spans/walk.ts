import { type Row, told } from './row.ts'

const walk = (text: string) => ({
  'seasons/2026/scouting.yaml': `- { date: 2026-07-20, block: upper, ${text} }\n`,
})
const work = (text: string) => ({
  'seasons/2026/work.yaml': `- { date: 2026-07-20, block: upper, job: tying, ${text} }\n`,
})
const walked = (organ: string) => (date: string) => ({
  'seasons/2026/scouting.yaml': `- { date: ${date}, block: upper, looked_at: { ${organ}: 100 }, found: {} }\n`,
})
/** What was found of powdery on so many: `{ bunches: 100 }, { bunches: 4 }`. */
const found = (text: string) => {
  const at = text.indexOf('}, ') + 1
  return walk(`looked_at: ${text.slice(0, at)}, found: { powdery: ${text.slice(at + 2)} }`)
}
const FIRST =
  'looked_at: { bunches: 100 }, found: { powdery: { bunches: 4, severity: 5 % }, downy: { bunches: 2, severity: 9 % } }'
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
  [
    'severity against the organ with most symptoms',
    found,
    [
      '{ bunches: 100, leaves: 50 }, { bunches: 4, leaves: 10, severity: 20 % }',
      '{ bunches: 100 }, { severity: 3 % }',
      '{ bunches: 100, leaves: 50 }, { leaves: 10, severity: 20 % }',
      '{ bunches: 3 }, { bunches: 1, severity: 33.3 % }',
    ],
    [
      '{ bunches: 100, leaves: 50 }, { bunches: 4, leaves: 10, severity: 20.1 % }',
      '{ bunches: 100, leaves: 50 }, { bunches: 4, severity: 5 % }',
      '{ bunches: 100 }, { bunches: 0, severity: 1 % }',
    ],
  ],
  [
    'classes against what was looked at',
    found,
    [
      '{ bunches: 100, leaves: 50 }, { classes: { 0: 45, 5-25: 5 } }',
      '{ bunches: 100, leaves: 50 }, { classes: { 0: 100 } }',
      '{ bunches: 100 }, { bunches: 4 }',
    ],
    [
      '{ bunches: 100, leaves: 50 }, { classes: { 0: 40, 5-25: 5 } }',
      '{ bunches: 100, leaves: 50 }, { classes: { 0: 150 } }',
      '{ vines: 20 }, { classes: { 0: 19 } }',
    ],
  ],
  [
    'one organ scored by itself',
    found,
    [
      '{ bunches: 100, leaves: 50 }, { bunches: 4, leaves: 10, scored: { bunches: { severity: 4 % }, leaves: { severity: 20 % } } }',
      '{ bunches: 100, leaves: 50 }, { scored: { leaves: { classes: { 0: 45, 5: 5 } } } }',
      '{ bunches: 100 }, { scored: { bunches: { severity: 50 % } } }',
    ],
    [
      '{ bunches: 100, leaves: 50 }, { bunches: 4, leaves: 10, scored: { bunches: { severity: 4.1 % } } }',
      '{ bunches: 100, leaves: 50 }, { scored: { leaves: { classes: { 0: 95, 5: 5 } } } }',
      '{ shoots: 10 }, { shoots: 1, scored: { shoots: { severity: 11 % } } }',
    ],
  ],
  [
    'looked at, of each organ',
    walk,
    ['looked_at: { leaves: 2000, shoots: 2000, vines: 2000 }, found: {}'],
    ['looked_at: { leaves: 2001, shoots: 2002, vines: 2003 }, found: {}', FIRST],
  ],
  [
    'hours, nobody counted',
    work,
    ['hours: 480', 'hours: 0, people: 1', 'time: 09:00-11:00, hours: 400'],
    ['hours: 481'],
  ],
  [
    'hours in times through midnight, or without an end',
    work,
    [
      'time: 22:00-02:00 +1, people: 2, hours: 13',
      'time: 09:00, people: 2, hours: 32',
      'time: 09:00-11:00, people: 2',
    ],
    ['time: 22:00-02:00 +1, people: 2, hours: 13.1', 'time: 09:00-10:00, people: 1, hours: 2.6'],
  ],
  [
    'months of both, and of what is there all year',
    told({
      'shoots in winter': walked('shoots')('2026-01-20'),
      'vines in winter': walked('vines')('2026-01-20'),
      'bunches at the end of the year': {
        'seasons/2026/scouting.yaml': walked('bunches')('2025-12-31')['seasons/2026/scouting.yaml'],
      },
      'bunches and leaves': walked('bunches: 100, leaves')('2026-01-01'),
      'leaves on shoots': walked('shoots: 5, leaves')('2026-01-01'),
    }),
    ['shoots in winter', 'vines in winter', 'bunches at the end of the year'],
    ['bunches and leaves', 'leaves on shoots'],
  ],
  [
    'prunings from a metre',
    work,
    ['prunings: 1.1 kg', 'prunings: 12 g'],
    ['prunings: 1.2 kg', 'prunings: 3100 g'],
  ],
]
