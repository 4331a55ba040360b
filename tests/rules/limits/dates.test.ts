import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { findingsOf } from '../../ledger/in-memory.ts'
import { instantsOf, shownAt } from '../../records/shown-clock.ts'
import { dayAfter, EXTRA, type Files, holdsFor, label, SPRAYS, spray, whole } from './both-sides.ts'

const extra = 'product: extra, rate: 3 kg/ha, for: powdery'
const on = (date: string, more = '', product = extra) => spray({ date, products: [product], more })
const PICKS = 'seasons/2026/picks.yaml'
const pick = (date: string, more = '') => `- { date: ${date}, ${more}block: upper, weight: 1800 kg }\n`
const clock = (minutes: number) =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`

describe('days that the label needs', () => {
  test('between two applications', () => {
    holdsFor('interval-too-short', 'error', whole(2, 60), (days) => {
      const book = (gap: number) => ({
        [EXTRA]: label({ use: `rate: 1-6 kg/ha, interval: ${days}-${days + 7} d` }),
        [SPRAYS]: on('2026-05-10') + on(dayAfter('2026-05-10', gap)),
      })
      return { inside: book(days), outside: book(days - 1) }
    })
  })

  test('rows that are apart, and another block, are not an interval', () => {
    const book = (first: string, second: string) => ({
      [EXTRA]: label({ use: 'rate: 1-6 kg/ha, interval: 10-14 d' }),
      [SPRAYS]: on('2026-05-10', first) + on('2026-05-12', second),
    })
    const rows = (span: string) => `  rows: ${span}\n`
    expect(findingsOf('interval-too-short', book(rows('1-8'), rows('9-20')))).toEqual([])
    expect(findingsOf('interval-too-short', book(rows('1-9'), rows('9-20')))).toHaveLength(1)
    const other = book('', '')
    other[SPRAYS] = other[SPRAYS]!.replace('[upper]', '[lower]')
    expect(findingsOf('interval-too-short', other)).toEqual([])
  })

  test('before harvest, by the calendar', () => {
    const drawn = fc.record({ days: whole(1, 60), end: whole(361, 1439) })
    holdsFor('inside-days-before-harvest', 'error', drawn, ({ days, end }) => {
      const book = (gap: number) => ({
        [EXTRA]: label({ more: `before_harvest: ${days} d\n` }),
        [SPRAYS]: on('2026-07-10', `  time: 06:00-${clock(end)}\n`),
        [PICKS]: pick(dayAfter('2026-07-10', gap)),
      })
      return { inside: book(days), outside: book(days - 1) }
    })
  })

  test('before harvest, by full days from the end of spraying', () => {
    const drawn = fc.record({ days: whole(1, 60), end: whole(361, 1430) })
    holdsFor('inside-days-before-harvest', 'warning', drawn, ({ days, end }) => {
      const book = (start: number) => ({
        [EXTRA]: label({ more: `before_harvest: ${days} d\n` }),
        [SPRAYS]: on('2026-07-10', `  time: 06:00-${clock(end)}\n`),
        [PICKS]: pick(dayAfter('2026-07-10', days), `time: ${clock(start)}-23:59, `),
      })
      return { inside: book(end), outside: book(end - 1) }
    })
  })

  test('before harvest, where no time is written: the day after', () => {
    holdsFor('inside-days-before-harvest', 'warning', whole(1, 60), (days) => {
      const book = (gap: number) => ({
        [EXTRA]: label({ more: `before_harvest: ${days} d\n` }),
        [SPRAYS]: on('2026-07-10'),
        [PICKS]: pick(dayAfter('2026-07-10', gap)),
      })
      return { inside: book(days + 1), outside: book(days) }
    })
  })

  test('the longest of the products and of the uses decides', () => {
    const files = (gap: number): Files => ({
      [EXTRA]: `${label({ use: 'rate: 1-6 kg/ha, before_harvest: 35 d' })}before_harvest: 7 d\n`,
      [SPRAYS]: spray({
        date: '2026-07-10',
        products: [extra, 'product: sulphur, rate: 3 kg/ha, for: powdery'],
        more: '  time: 06:00-08:00\n',
      }),
      [PICKS]: pick(dayAfter('2026-07-10', gap), 'time: 09:00-12:00, '),
    })
    expect(findingsOf('inside-days-before-harvest', files(34))).toHaveLength(1)
    expect(findingsOf('inside-days-before-harvest', files(35))).toEqual([])
  })

  test('into the time in which the variety ripens', () => {
    // The leaves of the variety turn on 10 August; it ripens 35 to 55 days after.
    holdsFor('days-before-planned-harvest', 'hint', whole(5, 60), (days) => {
      const book = (sprayed: string) => ({
        [EXTRA]: label({ more: `before_harvest: ${days} d\n` }),
        'seasons/2026/stages.yaml': '- { date: 2026-08-10, block: upper, stage: 81 }\n',
        [SPRAYS]: on(sprayed, '  time: 06:00-08:00\n'),
      })
      const ripe = dayAfter('2026-08-10', 35)
      // The cautious date is a day later than the calendar's, since spraying ended after midnight.
      return { inside: book(dayAfter(ripe, -days - 1)), outside: book(dayAfter(ripe, -days)) }
    })
  })

  test('of its authorisation: the first and the last day are inside', () => {
    const drawn = fc.record({ day: whole(0, 120), end: fc.constantFrom('from', 'until') })
    holdsFor('authorisation-lapsed', 'error', drawn, ({ day, end }) => {
      const date = dayAfter('2026-04-10', day)
      const book = (limit: string) => ({
        [EXTRA]: label({ more: `authorisation: { ${end}: ${limit} }\n` }),
        [SPRAYS]: on(date),
      })
      return { inside: book(date), outside: book(dayAfter(date, end === 'until' ? -1 : 1)) }
    })
  })
})

describe('applications that the label allows', () => {
  const dates = Array.from({ length: 9 }, (_, index) => dayAfter('2026-05-01', index * 12))

  test.each(['of the product', 'of the use'])('in a season, %s', (whose) => {
    holdsFor('too-many-applications', 'error', whole(1, 8), (most) => {
      const limit = `max_per_season: ${most}`
      const book = (count: number) => ({
        [EXTRA]: label(
          whose === 'of the use' ? { use: `rate: 1-6 kg/ha, ${limit}` } : { more: `${limit}\n` },
        ),
        [SPRAYS]: dates
          .slice(0, count)
          .map((date) => on(date))
          .join(''),
      })
      return { inside: book(most), outside: book(most + 1) }
    })
  })

  test('those of another season, another block or other rows do not count', () => {
    const limited = { [EXTRA]: label({ more: 'max_per_season: 1\n' }) }
    const judged = (files: Files) => findingsOf('too-many-applications', { ...limited, ...files })
    expect(judged({ 'seasons/2025/sprays.yaml': on('2025-06-01'), [SPRAYS]: on('2026-06-01') })).toEqual([])
    expect(judged({ [SPRAYS]: on('2026-06-01') + on('2026-06-09').replace('upper', 'lower') })).toEqual([])
    expect(
      judged({ [SPRAYS]: on('2026-06-01', '  rows: 1-8\n') + on('2026-06-09', '  rows: 9-20\n') }),
    ).toEqual([])
    expect(judged({ [SPRAYS]: on('2026-06-01') + on('2026-06-09') })).toHaveLength(1)
  })
})

describe('hours that the label keeps people out', () => {
  const zones = ['Europe/Berlin', 'Australia/Adelaide', 'America/New_York', 'Pacific/Auckland']
  // Dates around the changes of clocks of all these zones, and one far from any.
  const days = [
    '2026-03-07',
    '2026-03-28',
    '2026-04-04',
    '2026-09-26',
    '2026-10-03',
    '2026-10-24',
    '2026-06-20',
  ]
  const overAt = (of: { zone: string; day: string; end: number; hours: number }) =>
    instantsOf(`${of.day} ${clock(of.end)}`, of.zone).at(-1)! + of.hours * 3_600_000
  const drawn = fc
    .record({
      zone: fc.constantFrom(...zones),
      day: fc.constantFrom(...days),
      end: whole(361, 1438),
      hours: whole(1, 72),
    })
    .filter(({ zone, day, end, hours }) => {
      const over = shownAt(overAt({ zone, day, end, hours }), zone)
      // A minute that the clock shows twice, or the first of a day, can't be told apart by times of one day.
      return instantsOf(over, zone).length === 1 && /(0[4-9]|1\d|2[0-2]):(?!00)/.test(over)
    })
  const latitude = (zone: string) => (/Australia|Pacific/.test(zone) ? -35 : 45)
  const seasonOf = (zone: string, day: string) =>
    latitude(zone) < 0 ? (day >= '2026-06-01' ? 2027 : 2026) : 2026

  test('in elapsed hours from the end of spraying, across changes of clocks', () => {
    holdsFor('inside-re-entry', 'error', drawn, ({ zone, day, end, hours }) => {
      const over = overAt({ zone, day, end, hours })
      const folder = `seasons/${seasonOf(zone, day)}`
      const book = (start: number) => ({
        'vineyard.yaml': `name: T\nlatitude: ${latitude(zone)}\ntimezone: ${zone}\n`,
        [EXTRA]: label({ more: `re_entry: ${hours} h\n` }),
        [`${folder}/sprays.yaml`]: on(day, `  time: 06:00-${clock(end)}\n`),
        [`${folder}/work.yaml`]: `- { date: ${shownAt(start, zone).replace(' ', ', time: ')}-23:59, block: upper, job: tying }\n`,
      })
      return { inside: book(over), outside: book(over - 60_000), asOf: '2027-05-30' }
    })
  })

  test('by the longest of the products, for pickers too', () => {
    const book = (start: string): Files => ({
      [EXTRA]: label({ more: 're_entry: 48 h\nbefore_harvest: 0 d\n' }),
      'products/sulphur.yaml': label({ more: 're_entry: 4 h\nbefore_harvest: 0 d\n' }),
      [SPRAYS]: spray({
        date: '2026-09-10',
        products: [extra, 'product: sulphur, rate: 3 kg/ha, for: powdery'],
        more: '  time: 06:00-08:00\n',
      }),
      [PICKS]: pick('2026-09-12', `time: ${start}-12:00, `),
    })
    expect(findingsOf('inside-re-entry', book('08:00'))).toEqual([])
    expect(findingsOf('inside-re-entry', book('07:59')).map(({ level }) => level)).toEqual(['error'])
  })
})

describe('after picking, and twice', () => {
  test('a spray after the day of the last pick', () => {
    holdsFor('sprayed-after-picking', 'warning', whole(0, 40), (day) => {
      const picked = dayAfter('2026-09-01', day)
      const book = (sprayed: string) => ({ [SPRAYS]: on(sprayed), [EXTRA]: label(), [PICKS]: pick(picked) })
      return { inside: book(picked), outside: book(dayAfter(picked, 1)), asOf: '2026-10-30' }
    })
  })
  test('none where something was said to hang still', () => {
    const files = (rest: string) => ({
      [EXTRA]: label(),
      [SPRAYS]: on('2026-09-12'),
      [PICKS]: pick('2026-09-10', rest),
    })
    expect(findingsOf('sprayed-after-picking', files('rest: 10 %, '))).toEqual([])
    expect(findingsOf('sprayed-after-picking', files('rest: 0 %, '))).toHaveLength(1)
  })

  test('water is held against the calibration in force: not that of a later day, nor an old one without its day', () => {
    const hints = (date: string, calibrated: string, asOf = '2026-10-20') => {
      const files = {
        [EXTRA]: label(),
        'sprayers/mounted.yaml': `name: M\ntank: 200 L\nflow: 5.5 L/min\n${calibrated}speed: 5 km/h\n`,
        [SPRAYS]: spray({ date, products: [extra], water: '200 L/ha', more: '  sprayer: mounted\n' }),
      }
      return findingsOf('unlikely-spray', files, asOf).length
    }
    expect(hints('2026-06-10', 'calibrated: 2026-06-10\n')).toBe(1)
    expect(hints('2026-06-10', 'calibrated: 2026-06-11\n')).toBe(0)
    expect(hints('2026-06-10', '')).toBe(1)
    expect(hints('2026-06-10', '', '2027-06-01')).toBe(0)
    expect(hints('2026-06-10', 'calibrated: 2026-04-01\n', '2027-06-01')).toBe(1)
  })

  const twice = (first: string, second: string) =>
    findingsOf('entered-twice', { [EXTRA]: label(), [SPRAYS]: first + second })
  test.each([
    ['the same', on('2026-06-01'), on('2026-06-01'), 1],
    ['another day', on('2026-06-01'), on('2026-06-02'), 0],
    ['another dose is the same still', on('2026-06-01'), on('2026-06-01').replace('3 kg', '4 kg'), 1],
    ['another block', on('2026-06-01'), on('2026-06-01').replace('upper', 'lower'), 0],
    ['one of its blocks', on('2026-06-01'), on('2026-06-01').replace('[upper]', '[lower, upper]'), 1],
    [
      'another product',
      on('2026-06-01'),
      on('2026-06-01', '', 'product: sulphur, rate: 3 kg/ha, for: powdery'),
      0,
    ],
    ['rows apart', on('2026-06-01', '  rows: 1-8\n'), on('2026-06-01', '  rows: 9-20\n'), 0],
    ['rows that meet', on('2026-06-01', '  rows: 1-8\n'), on('2026-06-01', '  rows: 8-20\n'), 1],
    ['other times', on('2026-06-01', '  time: 06:00-07:00\n'), on('2026-06-01', '  time: 08:00-09:00\n'), 0],
    ['one time', on('2026-06-01', '  time: 06:00-07:00\n'), on('2026-06-01', '  time: 06:00-07:30\n'), 1],
  ])('a spray typed twice: %s', (_, first, second, count) => {
    expect(twice(first, second)).toHaveLength(count)
  })

  test('a year after the sprayer was measured, and a measuring to come', () => {
    const sprayer = (calibrated: string) =>
      `name: M\ntank: 200 L\nflow: 5.5 L/min\ncalibrated: ${calibrated}\n`
    holdsFor('calibration-old', 'hint', whole(0, 150), (day) => {
      const date = dayAfter('2026-04-01', day)
      const book = (age: number) => ({
        'sprayers/mounted.yaml': sprayer(dayAfter(date, -age)),
        [EXTRA]: label(),
        [SPRAYS]: on(date, '  sprayer: mounted\n'),
      })
      return { inside: book(366), outside: book(367) }
    })
    const measured = (date: string) => ({ 'sprayers/mounted.yaml': sprayer(date) })
    expect(findingsOf('future-date', measured('2026-10-20'))).toEqual([])
    expect(findingsOf('future-date', measured('2026-10-21'))).toHaveLength(1)
  })
})

describe('growth', () => {
  const seen = (date: string, stage: number) => `- { date: ${date}, block: upper, stage: ${stage} }\n`
  const stages = (...list: string[]) => ({ 'seasons/2026/stages.yaml': list.join('') })
  test('two stages back are allowed, three are not', () => {
    const drawn = fc.constantFrom(57, 65, 69, 75, 77, 79, 85, 89)
    holdsFor('stage-backwards', 'warning', drawn, (stage) => {
      const known = [53, 55, 57, 60, 61, 63, 65, 67, 68, 69, 71, 73, 75, 77, 79, 81, 83, 85, 89]
      const inside = known.filter((one) => one >= stage - 2)[0]!
      const outside = known.filter((one) => one < stage - 2).at(-1)!
      const book = (later: number) => stages(seen('2026-06-20', stage), seen('2026-06-24', later))
      return { inside: book(inside), outside: book(outside) }
    })
  })
  test('rows beyond those of the block', () => {
    holdsFor('more-than-block', 'error', whole(1, 60), (rows) => {
      const book = (last: number) => ({
        'blocks/upper.yaml': `name: U\nvariety: palava\nrows: ${rows}\nrow_length: 100 m\nrow_spacing: 2 m\nvine_spacing: 1 m\n`,
        [EXTRA]: label(),
        [SPRAYS]: on('2026-06-01', `  rows: 1-${last}\n`),
      })
      return { inside: book(rows), outside: book(rows + 1) }
    })
  })
})
