import { describe, expect, test } from 'vitest'
import { legalFrom, spraysOf } from '../../../src/facts/spraying/legal-from.ts'
import { keepOutOf, reEntryEnd } from '../../../src/facts/spraying/re-entry.ts'
import { earliestPick, endMinutes, latestSpray } from '../../../src/facts/spraying/spray-end.ts'
import { stockOf } from '../../../src/facts/spraying/stock.ts'
import { type Files, label } from '../../rules/limits/both-sides.ts'
import { bookOf, sprayed } from '../book.ts'

const SULPHUR = 'product: sulphur, rate: 3 kg/ha'
const EXTRA = 'product: extra, rate: 1 kg/ha'

describe('the end of a spray, and waits from it', () => {
  const time = { start: 1080, end: 1205 }
  test('as recorded, else the end of the day', () => {
    expect(endMinutes({ time })).toBe(1205)
    expect(endMinutes({ time: { start: 1080, end: null } })).toBe(1440)
    expect(endMinutes({})).toBe(1440)
  })
  test('elapsed hours, across the change of clocks in spring', () => {
    const waitOver = (spray: Parameters<typeof reEntryEnd>[0], hours: number) =>
      reEntryEnd(spray, [{ id: 'extra', re_entry: hours }], { zone: 'Europe/Berlin' })
    expect(waitOver({ date: '2026-06-10', time }, 24)).toMatchObject({
      date: '2026-06-11',
      minutes: 1205,
    })
    expect(waitOver({ date: '2026-06-10' }, 12)).toMatchObject({ date: '2026-06-11', minutes: 720 })
    // On 29 March 2026 the clock goes from 02:00 to 03:00.
    expect(waitOver({ date: '2026-03-28', time }, 24)).toMatchObject({
      date: '2026-03-29',
      minutes: 1265,
    })
  })
  test('the day of spraying is day 0, or full days count from its end', () => {
    expect(earliestPick({ date: '2026-08-01', time }, 21)).toEqual({
      calendar: '2026-08-22',
      cautious: '2026-08-23',
    })
    expect(earliestPick({ date: '2026-08-01', time }, 0)).toEqual({
      calendar: '2026-08-01',
      cautious: '2026-08-02',
    })
    expect(earliestPick({ date: '2026-08-01' }, 20.5)).toEqual({
      calendar: '2026-08-22',
      cautious: '2026-08-23',
    })
    const night = { date: '2026-08-01', time: { start: 1320, end: 1470 } }
    expect(earliestPick(night, 21)).toEqual({ calendar: '2026-08-22', cautious: '2026-08-24' })
  })
  test('a leap day counts as any other', () => {
    expect(earliestPick({ date: '2028-02-20', time }, 21).calendar).toBe('2028-03-12')
    expect(earliestPick({ date: '2027-02-20', time }, 21).calendar).toBe('2027-03-13')
    expect(latestSpray('2028-03-13', 21)).toBe('2028-02-20')
  })
  test('the last day to spray leaves the days free, the day of spraying not counted', () => {
    expect(latestSpray('2026-08-23', 21)).toBe('2026-08-01')
    expect(latestSpray('2026-08-23', 20.5)).toBe('2026-08-01')
    expect(latestSpray('2026-08-23', 0)).toBe('2026-08-22')
  })
})

describe('until when nobody may enter', () => {
  const keptOut = (products: string[], files: Files = {}) => {
    const ledger = bookOf(sprayed('2026-06-10', products, 'time: 18:00-20:00, water: 300 L/ha'), files)
    return keepOutOf(ledger, ledger.sprays[0]!)
  }
  const waits = (hours: string) => ({
    'products/extra.yaml': label({ more: hours ? `re_entry: ${hours}\n` : '' }),
  })
  test('the longest of the products decides, and of two equal ones the first', () => {
    expect(keptOut([SULPHUR, EXTRA], waits('48 h'))).toMatchObject({
      unknown: [],
      over: { by: 'extra', hours: 48, date: '2026-06-12', minutes: 1200 },
    })
    expect(keptOut([EXTRA, SULPHUR], waits('12 h'))).toMatchObject({ over: { by: 'sulphur', hours: 24 } })
    expect(keptOut([EXTRA, SULPHUR], waits('24 h'))).toMatchObject({ over: { by: 'extra', hours: 24 } })
  })
  test('a product without an interval is named once, and without any interval the wait is unknown', () => {
    expect(keptOut([EXTRA, SULPHUR, EXTRA], waits(''))).toMatchObject({
      over: { by: 'sulphur', hours: 24 },
      unknown: ['extra'],
    })
    expect(keptOut(['product: ghost, rate: 1 kg/ha', SULPHUR])).toMatchObject({
      over: { hours: 24 },
      unknown: ['ghost'],
    })
    expect(keptOut([EXTRA], waits(''))).toEqual({ over: null, unknown: ['extra'], overLabel: [] })
    expect(keptOut([EXTRA], waits('0 h'))).toMatchObject({
      over: { by: 'extra', hours: 0, date: '2026-06-10', minutes: 1200 },
    })
  })
  const untilDry = (time: string, products = [EXTRA]) => {
    const ledger = bookOf(sprayed('2026-06-10', products, `${time}water: 300 L/ha`), waits('until dry'))
    return keepOutOf(ledger, ledger.sprays[0]!).over
  }
  test('until dry: to the end of the day, or two hours from the end of spraying where that is later', () => {
    const dayEnd = { by: 'extra', hours: null, date: '2026-06-11', minutes: 0 }
    expect(untilDry('time: 07:00-08:00, ')).toMatchObject(dayEnd)
    expect(untilDry('')).toMatchObject(dayEnd)
    expect(untilDry('time: 20:00-22:00, ')).toMatchObject(dayEnd)
    expect(untilDry('time: 20:00-22:01, ')).toMatchObject({ ...dayEnd, minutes: 1 })
    // Hours that run longer decide.
    expect(untilDry('time: 07:00-08:00, ', [EXTRA, SULPHUR])).toMatchObject({ by: 'sulphur', hours: 24 })
  })
  test('over the label the end is unknown, whatever the label says', () => {
    const over = keptOut([SULPHUR.replace('3 kg', '6.1 kg')])
    expect(over.over).toBeNull()
    expect(over.overLabel).toMatchObject([{ product: 'sulphur', date: '2026-06-10' }])
    expect(keptOut([SULPHUR.replace('3 kg', '6 kg')])).toMatchObject({ over: { hours: 24 }, overLabel: [] })
  })
})

describe('from when a block may be picked', () => {
  const of = { block: 'upper', season: 2026, asOf: '2026-10-20' }
  const dates = (asOf: string, block = 'upper') =>
    spraysOf(
      bookOf(sprayed('2026-05-10', [SULPHUR]) + sprayed('2026-06-10', [SULPHUR], '', 'upper, lower'), {
        'seasons/2025/sprays.yaml': sprayed('2025-08-10', [SULPHUR]),
      }),
      { ...of, asOf, block },
    ).map(({ date }) => date)
  test('by the sprays of the block in the season, up to and including the day', () => {
    expect(dates('2026-06-10')).toEqual(['2026-05-10', '2026-06-10'])
    expect(dates('2026-06-09')).toEqual(['2026-05-10'])
    expect(dates('2026-10-20', 'lower')).toEqual(['2026-06-10'])
  })

  const legal = (sprays: string, days = '') => {
    const ledger = bookOf(sprays, {
      'products/extra.yaml': label({ more: days ? `before_harvest: ${days}\n` : '' }),
    })
    return legalFrom(ledger, spraysOf(ledger, of))
  }
  test('the latest of all waits decides, even if it is not of the last spray', () => {
    expect(legal(sprayed('2026-07-01', [EXTRA, SULPHUR]) + sprayed('2026-07-20', [SULPHUR]), '60 d')).toEqual(
      {
        date: '2026-08-31',
        calendar: '2026-08-30',
        by: { product: 'extra', name: 'Extra', days: 60, sprayed: '2026-07-01' },
        unknown: [],
        overLabel: [],
        sprays: 2,
      },
    )
    expect(legal(sprayed('2026-07-01', [EXTRA]) + sprayed('2026-07-20', [SULPHUR]), '7 d')).toMatchObject({
      date: '2026-08-11',
      calendar: '2026-08-10',
      by: { product: 'sulphur', days: 21, sprayed: '2026-07-20' },
    })
  })
  test('the longest wait decides even if it is not the first', () => {
    const later =
      sprayed('2026-07-01', [SULPHUR]) + sprayed('2026-07-02', [EXTRA]) + sprayed('2026-07-03', [SULPHUR])
    expect(legal(later, '60 d')).toMatchObject({ date: '2026-09-01', by: { product: 'extra' } })
  })
  test('a product without a record is unknown', () => {
    expect(legal(sprayed('2026-07-01', ['product: ghost, rate: 1 kg/ha', SULPHUR]))).toMatchObject({
      date: '2026-07-23',
      unknown: ['ghost'],
    })
  })
  test('of two that end on the same day, the one sprayed last is named', () => {
    const both = sprayed('2026-07-01', [EXTRA]) + sprayed('2026-07-10', [SULPHUR])
    expect(legal(both, '30 d').by).toEqual({
      product: 'sulphur',
      name: 'Test sulphur',
      days: 21,
      sprayed: '2026-07-10',
    })
  })
  test('a spray past midnight delays the cautious day, while another may decide the calendar day', () => {
    const night = sprayed('2026-07-01', [SULPHUR], 'time: 22:00-01:00 +1')
    expect(legal(night + sprayed('2026-07-02', [EXTRA], 'time: 05:00-06:00'), '20.5 d')).toMatchObject({
      date: '2026-07-24',
      calendar: '2026-07-23',
      by: { product: 'sulphur' },
    })
  })
  test('products that give no days are named once; without any there is no date', () => {
    expect(legal(sprayed('2026-07-01', [EXTRA, EXTRA, SULPHUR]))).toMatchObject({
      date: '2026-07-23',
      unknown: ['extra'],
    })
    expect(legal(sprayed('2026-07-01', [EXTRA]))).toEqual({
      date: null,
      calendar: null,
      by: null,
      unknown: ['extra'],
      overLabel: [],
      sprays: 1,
    })
  })
  test('one spray over the label means no date, however long ago it was', () => {
    const over =
      sprayed('2026-05-01', ['product: sulphur, rate: 6.1 kg/ha']) + sprayed('2026-07-01', [SULPHUR])
    expect(legal(over)).toMatchObject({
      date: null,
      calendar: null,
      by: null,
      overLabel: [{ product: 'sulphur' }],
    })
    expect(legal(over.replace('6.1', '6'))).toMatchObject({ date: '2026-07-23', overLabel: [] })
  })
})

describe('stock left', () => {
  const stock = (more: string, sprays: string, asOf = '2026-10-20', files: Files = {}) => {
    const ledger = bookOf(sprays, { 'products/extra.yaml': label({ more }), ...files })
    return stockOf(ledger, ledger.products.get('extra')!, asOf)
  }
  const two = sprayed('2026-05-01', [EXTRA]) + sprayed('2026-06-10', [EXTRA, SULPHUR], '', 'upper, lower')
  test('use counts after the day of the count, up to the day of the report', () => {
    // 0.5 ha at 1 kg/ha on 10 June; what was sprayed on the day of the count was already gone.
    expect(stock('stock: 4 kg\nstocked: 2026-05-01\n', two)).toEqual({
      counted: 4,
      unit: 'kg',
      usedSince: 0.5,
      left: 3.5,
    })
    expect(stock('stock: 4 kg\nstocked: 2026-04-30\n', two)).toMatchObject({ usedSince: 0.9, left: 3.1 })
    expect(stock('stock: 4 kg\nstocked: 2026-04-30\n', two, '2026-06-10')).toMatchObject({ usedSince: 0.9 })
    expect(stock('stock: 4 kg\nstocked: 2026-04-30\n', two, '2026-06-09')).toMatchObject({
      usedSince: 0.4,
      left: 3.6,
    })
  })
  test('without the day of the count no use is subtracted, and without a count there is no stock', () => {
    expect(stock('stock: 4 kg\n', two)).toEqual({ counted: 4, unit: 'kg', usedSince: null, left: 4 })
    expect(stock('', two)).toBeNull()
    expect(stock('stock: 0 kg\nstocked: 2026-05-01\n', two)).toMatchObject({ counted: 0, left: -0.5 })
  })
  test('an unknown use, or one in another measure, makes the stock left unknown', () => {
    const unknown = { counted: 4, unit: 'kg', usedSince: null, left: null }
    expect(
      stock('stock: 4 kg\nstocked: 2026-04-30\n', two + sprayed('2026-07-01', [EXTRA], 'rows: 1-2', 'wide')),
    ).toEqual(unknown)
    expect(
      stock('stock: 4 kg\nstocked: 2026-04-30\n', sprayed('2026-07-01', ['product: extra, rate: 1 L/ha'])),
    ).toEqual(unknown)
  })
})
