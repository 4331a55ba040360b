import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { blackRotOfSpell } from '../../../src/agronomy/disease/black-rot.ts'
import { spellDays } from '../../../src/agronomy/weather/spell-days.ts'
import type { EveryHour } from '../../../src/agronomy/weather/weather-hours.ts'
import { wetHours } from '../../../src/agronomy/weather/wet-hours.ts'
import { dry, hoursOf, times, wet, withAndWithoutGaps } from '../weather-maker.ts'

const blackRotDays = (hours: EveryHour) => spellDays(hours, wetHours(hours)).map(blackRotOfSpell)

describe('hours of wetness needed', () => {
  const blackRotHours = (temperature: number) => {
    const spell = { first: 0, last: 9, wetHours: 10, temperature, rain: 1, complete: true }
    return blackRotOfSpell({ day: 0, spells: [spell], unknownHours: 0 }).neededHours
  }

  test('between rows on the line', () => {
    expect(blackRotHours(15)).toBeCloseTo(9.6, 9)
  })
  test('no value outside 10.0 to 32.2 °C', () => {
    expect([blackRotHours(9.99), blackRotHours(10)]).toEqual([null, 24])
    expect([blackRotHours((90 - 32) / 1.8), blackRotHours(32.3)]).toEqual([12, null])
    expect(blackRotHours(Number.NaN)).toBe(null)
  })
})

describe('blackRotDays', () => {
  const day = (wetCount: number, temperature: number) =>
    blackRotDays(hoursOf([...dry(6), ...wet(wetCount, temperature), ...dry(18 - wetCount)]))[0]!
  test('both sides of the hours needed', () => {
    expect(day(8, 20)).toMatchObject({ infection: true, why: 'long enough wet' })
    expect(day(7, 20)).toMatchObject({ infection: false, why: 'too short' })
  })
  test('null where the table or the data do not answer', () => {
    expect(day(12, 8)).toMatchObject({ infection: null, why: 'no table value', neededHours: null })
    expect(blackRotDays(hoursOf([...dry(20), {}, ...dry(3)]))[0]).toMatchObject({
      infection: null,
      complete: false,
    })
    expect(blackRotDays(hoursOf([...dry(6), ...wet(3, 20), {}, ...dry(14)]))[0]).toMatchObject({
      infection: null,
      why: 'data missing',
    })
  })
  test('a complete day without wet hours is no infection, and says so', () => {
    expect(blackRotDays(hoursOf(dry(24)))[0]).toMatchObject({
      infection: false,
      why: 'not wet',
      complete: true,
    })
    expect(blackRotDays(hoursOf([...dry(23), {}]))[0]).toMatchObject({ infection: null, why: 'data missing' })
  })
  test('is complete where each hour of the day and of its spells is known', () => {
    const complete = (...parts: ReturnType<typeof wet>) => blackRotDays(hoursOf(parts))[0]!.complete
    expect(complete(...dry(6), ...wet(8, 20), ...dry(10))).toBe(true)
    // An hour unknown long after the spell, and a spell from before the record.
    expect(complete(...dry(6), ...wet(8, 20), ...dry(8), {}, ...dry(1))).toBe(false)
    expect(complete(...wet(8, 20), ...dry(16))).toBe(false)
  })
  test('wetness without a temperature is missing data, not a gap of the table', () => {
    const unread = times(8, { wetness: 60, rain: 1 })
    expect(blackRotDays(hoursOf([...dry(6), ...unread, ...dry(10)]))[0]).toMatchObject({
      infection: null,
      why: 'data missing',
      neededHours: null,
    })
  })
  test('of two spells of a day the worse one counts, whichever comes first', () => {
    const long = wet(8, 20)
    const short = wet(2, 20)
    for (const [first, second] of [
      [long, short],
      [short, long],
    ] as const)
      expect(blackRotDays(hoursOf([...dry(1), ...first, ...dry(12), ...second, ...dry(1)]))[0]).toMatchObject(
        { infection: true, why: 'long enough wet', wetHours: 8 },
      )
  })
  test('exactly the hours needed are enough', () => {
    expect(day(12, (90 - 32) / 1.8)).toMatchObject({ infection: true, neededHours: 12 })
    expect(day(11, (90 - 32) / 1.8).infection).toBe(false)
  })
  test('a missing hour never changes a complete day', () => {
    fc.assert(
      fc.property(withAndWithoutGaps(4), ({ known, gappy }) => {
        const whole = blackRotDays(known)
        for (const [at, result] of blackRotDays(gappy).entries())
          if (result.complete) expect(result).toEqual(whole[at])
      }),
    )
  })
})
