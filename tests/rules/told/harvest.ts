import { EXTRA, type Files, label, SPRAYS, spray } from '../limits/both-sides.ts'
import { ERROR, HINT, NONE, type Told, WARNING } from './row.ts'

const PICKS = 'seasons/2026/picks.yaml'
const STAGES = 'seasons/2026/stages.yaml'
const extra = 'product: extra, rate: 3 kg/ha, for: powdery'
const on = (date: string, time = '06:00-08:00', blocks = '[upper]') =>
  spray({ date, products: [extra], more: time === '' ? '' : `  time: ${time}\n` }).replace('[upper]', blocks)
const pick = (date: string, more = '', block = 'upper') =>
  `- { date: ${date}, ${more}block: ${block}, weight: 900 kg }\n`
const seen = (date: string, stage: number, block = 'upper') =>
  `- { date: ${date}, block: ${block}, stage: ${stage} }\n`

/** The leaves of the block turn on 10 August; its variety ripens 35 to 55 days after: 14 September to 4 October. */
const ripens = (sprayed: string, days: number, more: Files = {}): Files => ({
  [EXTRA]: label({ more: `before_harvest: ${days} d\n` }),
  [STAGES]: seen('2026-08-10', 81),
  [SPRAYS]: on(sprayed),
  ...more,
})
const VARIETY = 'name: Palava\ncolour: white\n'

export const PLANNED: Told[] = [
  ['over on the first day of ripeness', NONE, ripens('2026-08-25', 19)],
  ['over a day into the time of ripeness', HINT, ripens('2026-08-25', 20)],
  ['over on the last day of ripeness', HINT, ripens('2026-08-25', 39)],
  ['over a day after it: over-ripe', HINT, ripens('2026-08-25', 40)],
  ['sprayed on the last day of ripeness', HINT, ripens('2026-10-04', 7)],
  ['sprayed a day after it', NONE, ripens('2026-10-05', 7)],
  ['nothing seen of ripening', NONE, ripens('2026-08-25', 30, { [STAGES]: seen('2026-08-10', 79) })],
  [
    'first seen ripe for harvest, which tells nothing of its beginning',
    NONE,
    ripens('2026-08-25', 30, { [STAGES]: seen('2026-08-10', 89) }),
  ],
  ['first seen softening', HINT, ripens('2026-08-25', 30, { [STAGES]: seen('2026-08-10', 85) })],
  [
    'seen at 79, at 81 and at 85: from 81 on',
    HINT,
    ripens('2026-08-25', 30, {
      [STAGES]: seen('2026-07-20', 79) + seen('2026-08-10', 81) + seen('2026-08-24', 85),
    }),
  ],
  ['seen in another block', NONE, ripens('2026-08-25', 30, { [STAGES]: seen('2026-08-10', 81, 'lower') })],
  [
    'seen in another year',
    NONE,
    ripens('2026-08-25', 30, { [STAGES]: null, 'seasons/2025/stages.yaml': seen('2025-08-10', 81) }),
  ],
  ['seen on the day of looking', HINT, ripens('2026-08-09', 60), '2026-08-10'],
  ['to be seen on the day after looking', NONE, ripens('2026-08-09', 60), '2026-08-09'],
  ['picked meanwhile', NONE, ripens('2026-08-25', 30, { [PICKS]: pick('2026-09-20') })],
  [
    'picked in part, some hangs still',
    HINT,
    ripens('2026-08-25', 30, { [PICKS]: pick('2026-09-20', 'rest: 40 %, ') }),
  ],
  [
    'picked in part, then the rest',
    NONE,
    ripens('2026-08-25', 30, {
      [PICKS]: pick('2026-09-20', 'rest: 40 %, ') + pick('2026-09-29', 'rest: 0 %, '),
    }),
  ],
  [
    'picked on a day still to come',
    HINT,
    ripens('2026-08-25', 30, { [PICKS]: pick('2026-09-20') }),
    '2026-09-19',
  ],
  [
    'picked on the day of looking',
    NONE,
    ripens('2026-08-25', 30, { [PICKS]: pick('2026-09-20') }),
    '2026-09-20',
  ],
  [
    'the other block was picked',
    HINT,
    ripens('2026-08-25', 30, { [PICKS]: pick('2026-09-20', '', 'lower') }),
  ],
  ['picked last year', HINT, ripens('2026-08-25', 30, { 'seasons/2025/picks.yaml': pick('2025-09-20') })],
  [
    'a variety of which it is not known when it ripens',
    NONE,
    ripens('2026-08-25', 30, { 'varieties/palava.yaml': VARIETY }),
  ],
  ['a label without days', NONE, ripens('2026-08-25', 30, { [EXTRA]: label() })],
  [
    'days of the use',
    HINT,
    ripens('2026-08-25', 30, { [EXTRA]: label({ use: 'rate: 1-6 kg/ha, before_harvest: 30 d' }) }),
  ],
]

/** Sprayed on 10 July. */
const picked = (days: string, time: string, harvest: string, more: Files = {}): Files => ({
  [EXTRA]: label({ more: days === '' ? '' : `before_harvest: ${days}\n` }),
  [SPRAYS]: on('2026-07-10', time),
  [PICKS]: harvest,
  ...more,
})

/** Dates that are not on the first line of their entry: their own line is named. */
const TURNED = on('2026-07-10').replace(
  '- date: 2026-07-10\n  blocks: [upper]',
  '- blocks: [upper]\n  date: 2026-07-10',
)
const TURNED_PICK = '- block: upper\n  weight: 900 kg\n  date: 2026-09-10\n'

export const BEFORE_HARVEST: Told[] = [
  ['the line of its date is named', ERROR, picked('7 d', '', pick('2026-07-16'), { [SPRAYS]: TURNED })],
  ['a day after it', ERROR, picked('7 d', '06:00-08:00', pick('2026-07-11'))],
  ['six days after it', ERROR, picked('7 d', '06:00-08:00', pick('2026-07-16'))],
  ['on the last day, no time of picking', WARNING, picked('7 d', '06:00-08:00', pick('2026-07-17'))],
  [
    'on the last day, no time of spraying',
    WARNING,
    picked('7 d', '', pick('2026-07-17', 'time: 10:00-12:00, ')),
  ],
  [
    'on the last day, only the beginning of spraying',
    WARNING,
    picked('7 d', '06:00', pick('2026-07-17', 'time: 10:00-12:00, ')),
  ],
  [
    'on the last day, after full days',
    NONE,
    picked('7 d', '06:00-08:00', pick('2026-07-17', 'time: 08:00-12:00, ')),
  ],
  [
    'on the last day, a minute before full days',
    WARNING,
    picked('7 d', '06:00-08:00', pick('2026-07-17', 'time: 07:59-12:00, ')),
  ],
  ['the day after the last', NONE, picked('7 d', '06:00-08:00', pick('2026-07-18'))],
  [
    'sprayed past midnight: a day more by full days',
    WARNING,
    picked('7 d', '22:00-01:00 +1', pick('2026-07-18')),
  ],
  ['sprayed past midnight: after full days', NONE, picked('7 d', '22:00-01:00 +1', pick('2026-07-19'))],
  [
    'on the day of spraying, before it',
    NONE,
    picked('7 d', '18:00-20:00', pick('2026-07-10', 'time: 09:00-18:00, ')),
  ],
  [
    'on the day of spraying, a minute into it',
    ERROR,
    picked('7 d', '18:00-20:00', pick('2026-07-10', 'time: 09:00-18:01, ')),
  ],
  [
    'on the day of spraying, after it',
    ERROR,
    picked('7 d', '06:00-08:00', pick('2026-07-10', 'time: 09:00-18:00, ')),
  ],
  ['on the day of spraying, no time of picking', ERROR, picked('7 d', '18:00-20:00', pick('2026-07-10'))],
  [
    'on the day of spraying, only the beginning of picking',
    ERROR,
    picked('7 d', '18:00-20:00', pick('2026-07-10', 'time: 09:00, ')),
  ],
  [
    'on the day of spraying, no time of spraying',
    ERROR,
    picked('7 d', '', pick('2026-07-10', 'time: 09:00-18:00, ')),
  ],
  [
    'on the next day, by the clock earlier',
    ERROR,
    picked('7 d', '18:00-20:00', pick('2026-07-11', 'time: 09:00-12:00, ')),
  ],
  [
    'half a day, in the evening of that day',
    ERROR,
    picked('12 h', '06:00-08:00', pick('2026-07-10', 'time: 21:00-23:00, ')),
  ],
  [
    'half a day, the next morning',
    NONE,
    picked('12 h', '06:00-08:00', pick('2026-07-11', 'time: 08:00-09:00, ')),
  ],
  ['a label without days', NONE, picked('', '06:00-08:00', pick('2026-07-10'))],
  ['a label that asks none', NONE, picked('0 d', '06:00-08:00', pick('2026-07-10'))],
  ['another block', NONE, picked('7 d', '06:00-08:00', pick('2026-07-11', '', 'lower'))],
  ['picked the day before', NONE, picked('7 d', '06:00-08:00', pick('2026-07-09'))],
  [
    'of two uses the one it was sprayed for decides',
    ERROR,
    picked('', '06:00-08:00', pick('2026-07-16'), {
      [EXTRA]: `${label({ use: 'rate: 1-6 kg/ha, before_harvest: 7 d' })}before_harvest: 3 d\n`,
    }),
  ],
]

const after = (sprayed: string, harvest: string, blocks = '[upper]', more: Files = {}): Files => ({
  [EXTRA]: label(),
  [SPRAYS]: on(sprayed, '', blocks),
  [PICKS]: harvest,
  ...more,
})

export const AFTER_PICKING: Told[] = [
  ['the line of its date is named', WARNING, after('2026-09-11', TURNED_PICK)],
  ['on the day of picking', NONE, after('2026-09-10', pick('2026-09-10'))],
  ['the day after picking', WARNING, after('2026-09-11', pick('2026-09-10'))],
  ['some hangs still', NONE, after('2026-09-11', pick('2026-09-10', 'rest: 1 %, '))],
  [
    'some hung still, and was picked too',
    WARNING,
    after('2026-09-15', pick('2026-09-10', 'rest: 30 %, ') + pick('2026-09-14')),
  ],
  ['between two picks', NONE, after('2026-09-12', pick('2026-09-10') + pick('2026-09-14'))],
  ['the other block was picked', NONE, after('2026-09-11', pick('2026-09-10', '', 'lower'))],
  [
    'one of two blocks was picked',
    WARNING,
    after('2026-09-11', pick('2026-09-10', '', 'lower'), '[upper, lower]'),
  ],
  [
    'both were picked',
    [...WARNING, ...WARNING],
    after('2026-09-12', pick('2026-09-10', '', 'lower') + pick('2026-09-11'), '[upper, lower]'),
  ],
  [
    'picked last year',
    NONE,
    after('2026-09-11', '', '[upper]', { [PICKS]: null, 'seasons/2025/picks.yaml': pick('2025-09-10') }),
  ],
  [
    'picked again on the day of looking',
    NONE,
    after('2026-09-11', pick('2026-09-10') + pick('2026-09-14')),
    '2026-09-14',
  ],
  [
    'to be picked again on a day still to come',
    WARNING,
    after('2026-09-11', pick('2026-09-10') + pick('2026-09-14')),
    '2026-09-13',
  ],
]
