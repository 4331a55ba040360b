import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { rainCover } from '../../../src/agronomy/spraying/rain-cover.ts'
import type { RainPeriod } from '../../../src/agronomy/weather/rain-count.ts'

const hourly = (rain: (number | null)[], from = 100): RainPeriod[] =>
  rain.map((amount, at) => ({ from: from + at, to: from + at + 1, rain: amount }))
const hoursDry = (count: number) => new Array<number | null>(count).fill(0)
const spray = { sprayed: 100, asOf: 110 }

describe('the first limit decides', () => {
  const limits = { ...spray, washOff: 25, rainFastHours: 2, protectsDays: 10, growthDays: 8, intervalDays: 7 }
  test('interval, growth, protection', () => {
    const dry = hourly(hoursDry(10))
    expect(rainCover(limits, dry)).toMatchObject({ until: 268, reason: 'interval' })
    expect(rainCover({ ...limits, intervalDays: null }, dry)).toMatchObject({ until: 292, reason: 'growth' })
    expect(rainCover({ ...limits, intervalDays: null, growthDays: null }, dry).reason).toBe('protection over')
  })
  test('24.9 mm is not yet 25; 25.0 washes off', () => {
    const withLast = (last: number) => rainCover(limits, hourly([0, 0, 0, 10, 10, last, 0, 0, 0, 0]))
    expect(withLast(4.9).reason).toBe('interval')
    expect(withLast(5)).toMatchObject({
      until: 105,
      reason: 'washed off',
      certain: true,
    })
  })
  test('sums of tenths reach the limit', () => {
    expect(
      rainCover({ ...limits, asOf: 350 }, hourly([...hoursDry(3), ...new Array(250).fill(0.1)])).reason,
    ).toBe('interval')
    expect(
      rainCover({ ...limits, washOff: 3, asOf: 133 }, hourly([...hoursDry(3), ...new Array(30).fill(0.1)]))
        .until,
    ).toBe(132)
  })
  test('rain before it is dry ends cover at once; later rain does not', () => {
    expect(rainCover(limits, hourly([0, 0.2, ...hoursDry(8)]))).toMatchObject({
      until: 101,
      reason: 'rain before dry',
    })
    expect(rainCover(limits, hourly([0, 0, 0.2, ...hoursDry(7)])).reason).toBe('interval')
  })
  test('rain before the spray and after as-of is not counted', () => {
    const periods = hourly([30, ...hoursDry(11), 30], 99)
    expect(rainCover(limits, periods)).toMatchObject({ reason: 'interval' })
  })
  test('no limit given, no answer', () => {
    expect(rainCover(spray, [])).toMatchObject({
      until: null,
      reason: null,
      sureUntil: null,
    })
  })
  test('of limits that end it on one day the first named tells', () => {
    const dry = hourly(hoursDry(10))
    const same = { ...spray, intervalDays: 7, protectsDays: 7, growthDays: 7 }
    expect(rainCover(same, dry)).toMatchObject({ reason: 'interval', certain: true })
    expect(rainCover({ ...same, intervalDays: null }, dry)).toMatchObject({
      reason: 'protection over',
      certain: true,
    })
  })
  test('days alone end it whatever rain is missing, and name no day where there is none', () => {
    expect(rainCover({ ...spray, intervalDays: 7 }, [])).toEqual({
      until: 268,
      reason: 'interval',
      certain: true,
      sureUntil: 268,
      overBy: 268,
    })
    expect(rainCover(spray, [])).toMatchObject({ until: null, certain: true })
    expect(rainCover({ ...spray, rainFastHours: 2 }, hourly(hoursDry(4)))).toMatchObject({
      until: null,
      sureUntil: 110,
    })
    // Dry until 102: what is missing later can't have fallen on a wet deposit.
    expect(rainCover({ ...spray, rainFastHours: 2 }, hourly(hoursDry(1)))).toMatchObject({
      until: null,
      sureUntil: 101,
    })
  })
  test('rain that is missing from the end of cover on changes nothing', () => {
    const limits = { ...spray, asOf: 130, washOff: 25, intervalDays: 1 }
    expect(rainCover(limits, hourly(hoursDry(24)))).toMatchObject({
      until: 124,
      reason: 'interval',
      sureUntil: 124,
    })
    expect(rainCover(limits, hourly(hoursDry(23)))).toMatchObject({
      until: null,
      sureUntil: 123,
      overBy: 124,
    })
  })
  test('rain limits alone: covered so far, without an end', () => {
    expect(rainCover({ ...spray, washOff: 25 }, hourly(hoursDry(10)))).toMatchObject({
      until: null,
      sureUntil: 110,
    })
  })
})

describe('daily rain', () => {
  const limits = { sprayed: 100, asOf: 144, washOff: 25, rainFastHours: 2, intervalDays: 7 }
  const days = (first: number, second: number) => [
    { from: 96, to: 120, rain: first },
    { from: 120, to: 144, rain: second },
  ]
  test('whether rain of the spray day fell on the wet deposit is unknown; its sum counts in full', () => {
    expect(rainCover(limits, days(3, 0))).toMatchObject({
      ...{ reason: null, until: null, certain: false },
      ...{ sureUntil: 100, overBy: 100 + 7 * 24 },
    })
    expect(rainCover(limits, days(0, 3))).toMatchObject({ reason: 'interval', certain: true })
    expect(rainCover({ ...limits, rainFastHours: null }, days(10, 15))).toMatchObject({
      reason: 'washed off',
      until: 120,
      certain: false,
    })
    expect(rainCover({ ...limits, rainFastHours: null }, days(0, 25)).certain).toBe(true)
  })
})

describe('missing rain', () => {
  const limits = { ...spray, washOff: 25, intervalDays: 7 }
  test('is unknown, never zero', () => {
    const gap = hourly([0, 0, 0, null, ...hoursDry(6)])
    expect(rainCover(limits, gap)).toEqual({
      until: null,
      reason: null,
      certain: false,
      sureUntil: 103,
      overBy: 268,
    })
  })
  test('a row left out, and rows that end early, are missing too', () => {
    const left = hourly(hoursDry(10)).filter((_, at) => at !== 3)
    expect(rainCover(limits, left)).toMatchObject({ until: null, sureUntil: 103 })
    expect(rainCover(limits, hourly(hoursDry(6)))).toMatchObject({
      until: null,
      sureUntil: 106,
    })
  })
  test('does not matter once cover is over, nor where no rain limit is given', () => {
    expect(rainCover(limits, hourly([0, 25, 0, null, ...hoursDry(6)]))).toMatchObject({
      until: 101,
    })
    expect(rainCover({ ...spray, intervalDays: 7 }, [])).toMatchObject({ until: 268, reason: 'interval' })
  })
  test('refuses overlapping periods and negative rain', () => {
    expect(() => rainCover(limits, [...hourly([0]), ...hourly([0])])).toThrow(RangeError)
    expect(() => rainCover(limits, hourly([-1]))).toThrow(RangeError)
  })
})

test('more rain never lengthens cover', () => {
  const rain = fc.array(fc.constantFrom(0, 0, 0, 1, 4, 9, null), { minLength: 10, maxLength: 60 })
  const limits = fc.record({
    washOff: fc.constantFrom(null, 5, 25),
    rainFastHours: fc.constantFrom(null, 2, 6),
    intervalDays: fc.constantFrom(null, 1, 2),
  })
  let shortened = 0
  fc.assert(
    fc.property(rain, limits, fc.nat(9), fc.integer({ min: 1, max: 30 }), (amounts, given, hour, more) => {
      const spray = { ...given, sprayed: 100.5, asOf: 100 + amounts.length }
      const wetter = amounts.map((amount, at) => (at === hour ? (amount ?? 0) + more : amount))
      const before = rainCover(spray, hourly(amounts))
      const after = rainCover(spray, hourly(wetter))
      const end = (at: number | null) => at ?? Number.POSITIVE_INFINITY
      expect(end(after.overBy)).toBeLessThanOrEqual(end(before.overBy))
      if (before.until !== null) expect(end(after.until)).toBeLessThanOrEqual(before.until)
      if (end(after.overBy) < end(before.overBy)) shortened++
    }),
    { numRuns: 500 },
  )
  expect(shortened).toBeGreaterThan(0)
})
