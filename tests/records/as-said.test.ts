import { describe, expect, test } from 'vitest'
import { readStage, veraisonShare } from '../../src/records/growth-stage.ts'
import { findAllNamed, findNamed } from '../../src/records/typed/named.ts'
import { readTimeRange, timeRangeText } from '../../src/records/typed/time-range.ts'
import { dayOrderOf, readTypedDate } from '../../src/records/typed/typed-date.ts'

// What people type, read as they mean it. 2026-06-24 is a Wednesday.
const TODAY = '2026-06-24'
const day = (text: string, order: 'day-first' | 'month-first' | null = 'day-first') =>
  readTypedDate(text, { today: TODAY, order })

describe('days', () => {
  test.each([
    ['2026-06-14', '2026-06-14'],
    ['today', '2026-06-24'],
    ['Yesterday', '2026-06-23'],
    ['3 days ago', '2026-06-21'],
    ['monday', '2026-06-22'],
    ['last monday', '2026-06-22'],
    ['last wednesday', '2026-06-17'],
    ['thu', '2026-06-18'],
    ['23 june', '2026-06-23'],
    ['23rd of June', '2026-06-23'],
    ['June 23', '2026-06-23'],
    ['Jun 23, 2025', '2025-06-23'],
    ['Tue 23 Jun', '2026-06-23'],
    ['28 december', '2025-12-28'],
    ['23/06/2026', '2026-06-23'],
    ['23.6.', '2026-06-23'],
    ['23.06.26', '2026-06-23'],
    ['6/23/2026', '2026-06-23'],
    ['5/6', '2026-06-05'],
    ['2026/6/3', '2026-06-03'],
  ])('%s is %s', (text, date) => expect(day(text)).toEqual({ date }))

  test('where the month comes first', () => expect(day('5/6', 'month-first')).toEqual({ date: '2026-05-06' }))
  test.each(['wednesday', 'wed'])('%s, today itself, is asked about', (text) =>
    expect(day(text).fault?.message).toContain('2026-06-24 or 2026-06-17'),
  )
  test('a weekday that is today, said of what was just measured, is today', () =>
    expect(readTypedDate('wed', { today: TODAY, order: null, purpose: 'measured' })).toEqual({ date: TODAY }))
  test.each([
    ['today', '2026-06-24'],
    ['tomorrow', '2026-06-25'],
    ['wed', '2026-06-24'],
    ['next wednesday', '2026-07-01'],
    ['this saturday', '2026-06-27'],
    ['tuesday', '2026-06-30'],
    ['in 3 days', '2026-06-27'],
    ['sun 28 jun', '2026-06-28'],
    ['20 june', '2026-06-20'],
    ['5 january', '2027-01-05'],
    ['28 jun 2025', '2025-06-28'],
    ['26.9.', '2026-09-26'],
  ])('%s, of a plan, is %s', (text, date) =>
    expect(readTypedDate(text, { today: TODAY, order: 'day-first', purpose: 'planned' })).toEqual({ date }),
  )
  test('next sunday, of a plan, is asked about, and tomorrow is nothing that was done', () => {
    const planned = readTypedDate('next sunday', { today: TODAY, order: null, purpose: 'planned' })
    expect(planned.fault?.message).toContain('2026-06-28 or 2026-07-05')
    expect(day('tomorrow').fault).toBeDefined()
  })
  test('both readings are told where the country does not decide', () =>
    expect(day('05/06/2026', null).fault?.message).toContain('2026-06-05 or 2026-05-06'))
  test.each(['31 june', '30/02/2026', 'blursday', '', '32', '2026-06-31', 'may'])('%s is refused', (text) =>
    expect(day(text).fault).toBeDefined(),
  )
  test('in a file a date has its year', () => {
    const inFile = (text: string) => readTypedDate(text, { today: null, order: 'day-first' })
    expect(inFile('23 June 2026')).toEqual({ date: '2026-06-23' })
    expect(inFile('23 June').fault?.message).toBe('the date has no year')
    expect(inFile('yesterday').fault).toBeDefined()
  })
  test('the zone of the site says the order', () =>
    expect(['Europe/London', 'America/New_York', 'America/Toronto'].map(dayOrderOf)).toEqual([
      'day-first',
      'month-first',
      null,
    ]))
})

describe('times', () => {
  test.each([
    ['18:40-20:05', '18:40-20:05'],
    ['6:30pm-7:10pm', '18:30-19:10'],
    ['6:30-7:10 pm', '18:30-19:10'],
    ['11:30-1:10pm', '11:30-13:10'],
    ['6 pm', '18:00'],
    ['12:15 am', '00:15'],
    ['18.30', '18:30'],
    ['18.3', '18:30'],
    ['1830-1910', '18:30-19:10'],
    ['18h30 to 19h10', '18:30-19:10'],
    ['18-20', '18:00-20:00'],
    ['22:30-01:10 +1', '22:30-01:10 +1'],
  ])('%s is %s', (text, written) => expect(timeRangeText(readTimeRange(text).range!)).toBe(written))
  test.each(['28:00', '18:75', '13 pm', '19:00-18:00', 'evening', ''])('%s is refused', (text) =>
    expect(readTimeRange(text).fault).toBeDefined(),
  )
})

describe('stages', () => {
  test.each([
    ['65', 65],
    ['BBCH 65', 65],
    ['E-L 25', 68],
    ['EL25', 68],
    ['flowering', 65],
    ['80 % capfall', 68],
    ['80% bloom', 68],
    ['Véraison', 81],
    ['50 % veraison', 83],
    ['5% veraison', 81],
    ['pea size', 75],
    ['bunch closure', 77],
    ['6 leaves', 16],
    ['three leaves', 13],
    ['bud break', 9],
  ])('%s is BBCH %i', (text, stage) => expect(readStage(text)).toBe(stage))
  test.each(['', 'soon', '120 % veraison', 'E-L 99', 'leaves'])('%s is none', (text) =>
    expect(readStage(text)).toBeNull(),
  )
})

test.each([
  ['50 % veraison', 50],
  ['10% colour', 10],
  ['95 percent veraison', 95],
  ['veraison', null],
  ['80 % capfall', null],
  ['83', null],
])('%s says %s %% of the berries coloured', (text, share) => expect(veraisonShare(text)).toBe(share))

describe('names', () => {
  const blocks = [
    { id: 'top-terrace', name: 'Top Terrace' },
    { id: 'shed', name: 'Behind the Shed' },
    { id: 'orchard', name: 'Côté Orchard' },
    { id: 'orchard-low', name: 'Orchard Low' },
  ]
  const found = (said: string) => findNamed(said, blocks).found?.id
  test.each([
    ['top-terrace', 'top-terrace'],
    ['Top terrace', 'top-terrace'],
    ['terr', 'top-terrace'],
    ['SHED', 'shed'],
    ['behind', 'shed'],
    ['orchard', 'orchard'],
    ['cote', 'orchard'],
    ['low', 'orchard-low'],
    ['TopTerrace', 'top-terrace'],
    ['the top terrace', 'top-terrace'],
  ])('%s is %s', (said, id) => expect(found(said)).toBe(id))
  test.each(['e', 'pond', '', 'orch', 'pt'])('%s is not one alone', (said) =>
    expect(found(said)).toBeUndefined(),
  )
  test('of two that only `the` tells apart, the one that was written', () => {
    const both = [
      { id: 'orchard', name: 'Orchard' },
      { id: 'the-orchard', name: 'The Orchard' },
    ]
    const ids = (said: string) => findAllNamed(said, both).found.map(({ id }) => id)
    for (const { id, name } of both) expect([ids(id), ids(name)]).toEqual([[id], [id]])
    expect(ids('all except the-orchard')).toEqual(['orchard'])
  })
  test('several at once', () => {
    const ids = (said: string) => findAllNamed(said, blocks).found.map(({ id }) => id)
    expect(ids('shed, orchard')).toEqual(['shed', 'orchard'])
    expect(ids('Shed + top and low')).toEqual(['shed', 'top-terrace', 'orchard-low'])
    for (const all of ['all', 'all the vines', 'the whole vineyard', 'alle', 'Tout'])
      expect(ids(all)).toHaveLength(4)
    expect(ids('all except shed')).toEqual(ids('all').filter((id) => id !== 'shed'))
    expect(ids('Everything but shed')).toEqual(ids('all').filter((id) => id !== 'shed'))
    expect(ids('all blocks but shed, low')).toEqual(
      ids('all').filter((id) => id !== 'shed' && id !== 'orchard-low'),
    )
    expect(ids('shed and orchard without orchard')).toEqual(['shed'])
    expect(findAllNamed('all except pond', blocks).unclear?.word).toBe('pond')
    expect(findAllNamed('all except all', blocks)).toEqual({
      found: [],
      unclear: { word: 'all except all', several: [] },
    })
    expect(findAllNamed('shed, pond', blocks).unclear?.word).toBe('pond')
  })
})
