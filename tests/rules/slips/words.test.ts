import { describe, expect, test } from 'vitest'
import { median, mediansWithoutOne, slipped } from '../../../src/agronomy/statistics/median.ts'
import { above, figureText, listed, rangeText } from '../../../src/facts/sentences.ts'
import { findingsOf } from '../../../src/rules/rule.ts'
import { northernMonth, outOfSeason, slipsOf } from '../../../src/rules/slips/usual.ts'
import { bookOf } from '../../facts/book.ts'

test('the middle of a list, whatever its order', () => {
  expect([median([]), median([5]), median([9, 1, 2]), median([10, 2, 9, 1])]).toEqual([null, 5, 2, 5.5])
  const list = [10, 9]
  median(list)
  expect(list).toEqual([10, 9])
})

test('the middle of the others', () => {
  const without = (list: number[]) => list.map(mediansWithoutOne(list))
  expect(without([])).toEqual([])
  expect(without([4])).toEqual([null])
  expect(without([4, 7])).toEqual([7, 4])
  expect(without([10, 2, 9])).toEqual([5.5, 9.5, 6])
  expect(without([1, 2, 9, 10])).toEqual([9, 9, 2, 2])
  expect(without([5, 5, 5, 1])).toEqual([5, 5, 5, 5])
  expect(without([10, 9, 1, 8, 2])).toEqual([5, 5, 8.5, 5.5, 8.5])
})

test('a slip is eight times or an eighth of what is usual, and never where one of both is nothing', () => {
  expect([slipped(8, 1), slipped(7.99, 1), slipped(1, 8), slipped(1.01, 8)]).toEqual([
    true,
    false,
    true,
    false,
  ])
  expect([slipped(0, 1), slipped(1, 0), slipped(0, 0), slipped(-9, -1)]).toEqual([false, false, false, false])
})

describe('months as in the north', () => {
  const north = { latitude: 50 }
  const south = { latitude: -34 }
  test('July is the same in the north as January in the south', () => {
    expect([northernMonth(north, '2026-07-15'), northernMonth(south, '2026-01-15')]).toEqual([7, 7])
    expect([northernMonth(south, '2026-06-15'), northernMonth(south, '2026-07-15')]).toEqual([12, 1])
    expect(northernMonth(south, '2026-12-15')).toBe(6)
  })
  test('near the equator the months say nothing', () => {
    expect(northernMonth({ latitude: 24.9 }, '2026-07-15')).toBeNull()
    expect(northernMonth({ latitude: -24.9 }, '2026-07-15')).toBeNull()
    expect(northernMonth({ latitude: 25 }, '2026-07-15')).toBe(7)
    expect(northernMonth({ latitude: -25 }, '2026-07-15')).toBe(1)
    expect(northernMonth({ latitude: 0 }, '2026-07-15')).toBeNull()
  })
  test('out of season before the first month and after the last', () => {
    const out = (date: string, site = north) => outOfSeason(site, date, [4, 10])
    expect(['2026-03-31', '2026-04-01', '2026-10-31', '2026-11-01'].map((date) => out(date))).toEqual([
      true,
      false,
      false,
      true,
    ])
    expect([out('2026-09-30', south), out('2026-10-01', south)]).toEqual([true, false])
    expect(out('2026-01-01', { latitude: 3 })).toBe(false)
  })
})

describe('words of a message', () => {
  test('figures of four digits, with their unit', () => {
    expect([figureText(0.123456), figureText(1234.56, 'kg'), figureText(3), figureText(300, 'L/ha')]).toEqual(
      ['0.1235', '1235 kg', '3', '300 L/ha'],
    )
  })
  test('spans, and a span of one', () => {
    expect(rangeText({ low: 2, high: 6, unit: 'kg/ha' })).toBe('2-6 kg/ha')
    expect(rangeText({ low: 6, high: 6, unit: 'kg/ha' })).toBe('6 kg/ha')
  })
  test('how far above, where that says something', () => {
    expect([above(6.2, 6), above(6.3, 6), above(9, 6), above(60, 6)]).toEqual([
      'above',
      '1.1 times',
      '1.5 times',
      '10 times',
    ])
  })
  test('lists', () => {
    expect([listed([]), listed(['a']), listed(['a', 'b']), listed(['a', 'b', 'c'])]).toEqual([
      '',
      'a',
      'a and b',
      'a, b and c',
    ])
  })
})

const site = bookOf('', { 'seasons/2026/sprays.yaml': null }).vineyard

test('the same of the same place is told once, whatever else differs', () => {
  const slips = slipsOf(site)
  slips.odd(['latitude'], 'far', 'look')
  const one = slips.found[0]!
  const others = [
    { ...one, file: 'other.yaml' },
    { ...one, line: 9 },
    { ...one, column: 9 },
    { ...one, message: 'near' },
  ]
  const check = () => [one, ...others, { ...one }, { ...one, help: 'another way out' }]
  const book = { ledger: bookOf(''), asOf: '2026-10-20', seasons: new Set<number>() }
  const named = [one, ...others].map((each) => ({ ...each, name: 'far-off' }))
  expect(findingsOf({ name: 'far-off', check }, book)).toEqual(named)
})

test('a figure at either end of its span, or not written, is not told; beyond it is, in its place', () => {
  const told = (value: number | undefined, unit?: string) => {
    const slips = slipsOf(site)
    slips.unusual(['latitude'], value, 'latitude', [20, 62, unit])
    return slips.found
  }
  expect([told(20), told(62), told(undefined)].flat()).toEqual([])
  expect(told(19.99, 'm')).toEqual([
    {
      file: 'vineyard.yaml',
      line: 2,
      column: 11,
      length: 4,
      level: 'warning',
      message: '19.99 m is an unlikely latitude; usual: 20 to 62 m',
      help: 'check the figure, its decimal point and its unit',
    },
  ])
  expect(told(62.01)[0]!.message).toBe('62.01 is an unlikely latitude; usual: 20 to 62')
  const slips = slipsOf(site)
  slips.odd(['timezone'], 'it is odd', 'look there')
  expect(slips.found).toMatchObject([{ line: 4, level: 'warning', message: 'it is odd', help: 'look there' }])
})
