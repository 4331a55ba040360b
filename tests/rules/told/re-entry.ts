import { EXTRA, type Files, label, SPRAYS, spray } from '../limits/both-sides.ts'
import { ERROR, HINT, NONE, type Told, WARNING } from './row.ts'

const WORK = 'seasons/2026/work.yaml'
const job = (date: string, time = '', more = 'block: upper, job: tying') =>
  `- { date: ${date}, ${time === '' ? '' : `time: ${time}, `}${more} }\n`
/** Sprayed on Fri 10 July with a product that asks so many hours. */
const book = (hours: string, time: string, entered: string): Files => ({
  [EXTRA]: label({ more: hours === '' ? '' : `re_entry: ${hours}\n` }),
  [SPRAYS]: spray({
    date: '2026-07-10',
    products: ['product: extra, rate: 3 kg/ha, for: powdery'],
    more: time === '' ? '' : `  time: ${time}\n`,
  }),
  [WORK]: entered,
})

const two = (first: string, second: string): Files => ({
  ...book('48 h', '06:00-08:00', job('2026-07-12', '07:00-09:00')),
  'products/short.yaml': label({ more: 're_entry: 4 h\n' }),
  [SPRAYS]: spray({
    date: '2026-07-10',
    products: [first, second].map((id) => `product: ${id}, rate: 3 kg/ha, for: powdery`),
    more: '  time: 06:00-08:00\n',
  }),
})

/** The date of the spray is not on its first line, and is what is shown. */
const TURNED = spray({ date: '2026-07-10', products: ['product: extra, rate: 3 kg/ha'] }).replace(
  '- date: 2026-07-10\n  blocks: [upper]',
  '- blocks: [upper]\n  date: 2026-07-10',
)

export const RE_ENTRY: Told[] = [
  [
    'the line of its date is named',
    WARNING,
    { ...book('24 h', '', job('2026-07-11', '06:00-09:00')), [SPRAYS]: TURNED },
  ],
  // Both times are written.
  [
    'work that ends when spraying begins',
    NONE,
    book('24 h', '18:00-20:00', job('2026-07-10', '15:00-18:00')),
  ],
  [
    'work that runs a minute into spraying',
    ERROR,
    book('24 h', '18:00-20:00', job('2026-07-10', '15:00-18:01')),
  ],
  [
    'a minute too early on the next day',
    ERROR,
    book('24 h', '18:00-20:00', job('2026-07-11', '19:59-21:00')),
  ],
  [
    'on the minute on which the time is over',
    NONE,
    book('24 h', '18:00-20:00', job('2026-07-11', '20:00-21:00')),
  ],
  [
    'sprayed past midnight, 8 hours, at half past eight',
    ERROR,
    book('8 h', '22:30-00:31 +1', job('2026-07-11', '08:30-12:00')),
  ],
  [
    'sprayed past midnight, 8 hours, a minute later',
    NONE,
    book('8 h', '22:30-00:31 +1', job('2026-07-11', '08:31-12:00')),
  ],
  [
    'only the hour at which work began is written, in time',
    NONE,
    book('24 h', '18:00-20:00', job('2026-07-10', '17:00')),
  ],
  [
    'only the hour at which work began is written, too early',
    ERROR,
    book('24 h', '18:00-20:00', job('2026-07-11', '12:00')),
  ],
  // Of spraying only its beginning, or nothing.
  [
    'it is not written when spraying ended: too early in any case',
    ERROR,
    book('24 h', '18:00', job('2026-07-11', '17:00-17:30')),
  ],
  [
    'it is not written when spraying ended: perhaps too early',
    WARNING,
    book('24 h', '18:00', job('2026-07-11', '19:00-20:00')),
  ],
  [
    'it is not written when spraying ended: a day and a night later',
    NONE,
    book('24 h', '18:00', job('2026-07-12', '00:00-02:00')),
  ],
  ['no time of spraying, work on its morning', WARNING, book('24 h', '', job('2026-07-10', '06:00-09:00'))],
  [
    'no time of spraying, work on the next morning',
    WARNING,
    book('24 h', '', job('2026-07-11', '06:00-09:00')),
  ],
  [
    'no time of spraying, two days, work on the next morning',
    ERROR,
    book('48 h', '', job('2026-07-11', '06:00-09:00')),
  ],
  [
    'no time of spraying, work when its day and the wait are over',
    NONE,
    book('24 h', '', job('2026-07-12', '00:00-03:00')),
  ],
  // No time of the work.
  [
    'no time of work, on the day of spraying in the evening: likely before it',
    HINT,
    book('24 h', '18:00-20:00', job('2026-07-10')),
  ],
  [
    'no time of work, sprayed from noon: likely before it',
    HINT,
    book('24 h', '12:00-13:00', job('2026-07-10')),
  ],
  ['no time of work, sprayed a minute before noon', WARNING, book('24 h', '11:59-13:00', job('2026-07-10'))],
  ['no time of work, sprayed at dawn of that day', WARNING, book('24 h', '06:00-08:00', job('2026-07-10'))],
  [
    'no time of work, the wait over at noon: likely after it',
    HINT,
    book('24 h', '06:00-12:00', job('2026-07-11')),
  ],
  [
    'no time of work, the wait over a minute after noon',
    WARNING,
    book('24 h', '06:00-12:01', job('2026-07-11')),
  ],
  [
    'no time of work, over in the evening of that day',
    WARNING,
    book('24 h', '18:00-20:00', job('2026-07-11')),
  ],
  [
    'no time of work, the day on which the wait is over in the afternoon',
    WARNING,
    book('48 h', '14:00-16:00', job('2026-07-12')),
  ],
  [
    'no time of work, on a day that the wait takes whole',
    ERROR,
    book('48 h', '06:00-08:00', job('2026-07-11')),
  ],
  [
    'no time of work, the day on which the wait is over at dawn',
    HINT,
    book('48 h', '06:00-08:00', job('2026-07-12')),
  ],
  ['no time of either, on the one day', HINT, book('24 h', '', job('2026-07-10'))],
  ['no time of either, two days, on the one day', HINT, book('48 h', '', job('2026-07-10'))],
  ['no time of either, the next day', WARNING, book('24 h', '', job('2026-07-11'))],
  ['no time of either, two days, the next day', ERROR, book('48 h', '', job('2026-07-11'))],
  ['no time of either, two days later', NONE, book('24 h', '', job('2026-07-12'))],
  // Who, where and what.
  [
    'sprayed a second time, by those who spray',
    NONE,
    book('24 h', '06:00-08:00', job('2026-07-10', '09:00-10:00', 'block: upper, job: Spraying of weeds')),
  ],
  [
    'in another block',
    NONE,
    book('24 h', '06:00-08:00', job('2026-07-10', '09:00-10:00', 'block: lower, job: tying')),
  ],
  ['work of the day before', NONE, book('24 h', '06:00-08:00', job('2026-07-09', '09:00-10:00'))],
  ['no time of work, the day before', NONE, book('24 h', '00:00-02:00', job('2026-07-09'))],
  ['a label that asks no time', NONE, book('', '06:00-08:00', job('2026-07-10', '09:00-10:00'))],
  ['a label that asks none, as nought', NONE, book('0 h', '06:00-08:00', job('2026-07-10', '09:00-10:00'))],
  [
    'sprayed and worked on the day of looking',
    ERROR,
    book('24 h', '06:00-08:00', job('2026-07-10', '09:00-10:00')),
    '2026-07-10',
  ],
  [
    'a label that asks none, while it is sprayed',
    NONE,
    book('0 h', '06:00-08:00', job('2026-07-10', '07:00-10:00')),
  ],
  [
    'work that runs past midnight into spraying',
    ERROR,
    book('24 h', '01:00-03:00', job('2026-07-09', '22:00-01:01 +1')),
  ],
  [
    'work that runs past midnight and ends when spraying begins',
    NONE,
    book('24 h', '01:00-03:00', job('2026-07-09', '22:00-01:00 +1')),
  ],
  [
    'work that runs past midnight, the spray not yet done on the day of looking',
    NONE,
    book('24 h', '01:00-03:00', job('2026-07-09', '22:00-02:00 +1')),
    '2026-07-09',
  ],
  ['the longer of two, which comes first', ERROR, two('extra', 'short')],
  ['the longer of two, which comes last', ERROR, two('short', 'extra')],
  [
    'the longest that a record takes, on its last day',
    ERROR,
    book('2400 h', '06:00-08:00', job('2026-10-18', '07:59-09:00')),
  ],
  [
    'the longest that a record takes, over',
    NONE,
    book('2400 h', '06:00-08:00', job('2026-10-18', '08:00-09:00')),
  ],
  [
    'pickers',
    ERROR,
    {
      ...book('24 h', '06:00-08:00', ''),
      [WORK]: null,
      'seasons/2026/picks.yaml': '- { date: 2026-07-11, time: 07:00-12:00, block: upper, weight: 1800 kg }\n',
    },
  ],
]
