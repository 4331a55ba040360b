import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { botrytisOfSpell } from '../../../src/agronomy/disease/botrytis.ts'
import { botrytisInfection } from '../../../src/agronomy/disease/botrytis-infection.ts'
import { spellDays } from '../../../src/agronomy/weather/spell-days.ts'
import type { EveryHour } from '../../../src/agronomy/weather/weather-hours.ts'
import { wetHours } from '../../../src/agronomy/weather/wet-hours.ts'
import { dry, hoursOf, times, wet, withAndWithoutGaps } from '../weather-maker.ts'

const botrytisDays = (hours: EveryHour) => spellDays(hours, wetHours(hours)).map(botrytisOfSpell)

describe('botrytisInfection', () => {
  test('the trap: classes split the logit, so that a share below 1 can be high', () => {
    const { index, risk } = botrytisInfection(16, 20)
    expect(index).toBeLessThan(1)
    expect(risk).toBe('high')
    // A share of 0.59 would be "moderate" if 0.5 split the share.
    expect(botrytisInfection(12, 20).risk).toBe('low')
  })

  test('no wetness is no risk, not 0.066', () => {
    expect(botrytisInfection(0, 20)).toEqual({ logit: null, index: 0, risk: 'none', why: 'not wet' })
  })

  test.each([[11.9], [30.1], [Number.NaN]])('%d °C is outside the range and has no value', (temperature) => {
    expect(botrytisInfection(20, temperature)).toMatchObject({
      index: null,
      risk: null,
      why: 'outside 12-30 °C',
    })
  })

  test.each([[12], [30]])('%d °C is inside', (temperature) => {
    expect(botrytisInfection(20, temperature).risk).not.toBe(null)
  })

  test.each([
    [3, 'computed outside 4-24 h'],
    [4, 'computed'],
    [24, 'computed'],
    [25, 'computed outside 4-24 h'],
  ])('%d h says %s', (wetHours, why) => {
    expect(botrytisInfection(wetHours, 20).why).toBe(why)
  })

  test('each class limit on both sides, at 20 °C', () => {
    const risks = [10.47, 10.49, 12.45, 12.47, 14.42, 14.45].map(
      (wetHours) => botrytisInfection(wetHours, 20).risk,
    )
    expect(risks).toEqual(['none', 'low', 'low', 'moderate', 'moderate', 'high'])
  })

  test('refuses hours below 0', () => {
    expect(() => botrytisInfection(-1, 20)).toThrow(RangeError)
  })
})

describe('botrytisDays', () => {
  test('a spell over midnight grows from day to day', () => {
    const days = botrytisDays(hoursOf([...dry(16), ...wet(16, 20), ...dry(16)]))
    expect(days.map(({ wetHours, risk, complete }) => ({ wetHours, risk, complete }))).toEqual([
      { wetHours: 8, risk: 'none', complete: true },
      { wetHours: 16, risk: 'high', complete: true },
    ])
  })

  test('takes the worst spell of the day', () => {
    const days = botrytisDays(hoursOf([...dry(5), ...wet(11, 20), ...dry(6), ...wet(2, 20)]))
    expect(days[0]).toMatchObject({ wetHours: 11, risk: 'low' })
    const turned = botrytisDays(hoursOf([...dry(5), ...wet(2, 20), ...dry(6), ...wet(11, 20)]))
    expect(turned[0]).toMatchObject({ wetHours: 11, risk: 'low' })
  })

  test('a spell without a value is not hidden by a harmless one, but by a risky one', () => {
    const withCold = (...other: ReturnType<typeof wet>) =>
      botrytisDays(hoursOf([...dry(24), ...wet(3, 8), ...dry(5), ...other, ...dry(16 - other.length)]))[1]!
    expect(withCold(...wet(2, 20)).risk).toBe(null)
    expect(withCold(...wet(12, 20)).risk).toBe('low')
  })

  test('a dry day is none; a day of unknown wetness is unknown, not none', () => {
    expect(botrytisDays(hoursOf(dry(24)))[0]).toEqual({
      day: 0,
      logit: null,
      index: 0,
      risk: 'none',
      why: 'not wet',
      wetHours: 0,
      temperature: null,
      complete: true,
    })
    expect(botrytisDays(hoursOf([...dry(23), {}]))[0]!.complete).toBe(false)
    expect(botrytisDays(hoursOf([...dry(23), {}]))[0]).toMatchObject({
      index: null,
      risk: null,
      why: 'wetness unknown',
    })
  })

  test('cold wetness has no value, with its reason', () => {
    expect(botrytisDays(hoursOf([...dry(6), ...wet(12, 8), ...dry(6)]))[0]).toMatchObject({
      index: null,
      why: 'outside 12-30 °C',
      wetHours: 12,
    })
    const noTemperature = [...dry(6), ...times(4, { wetness: 60 }), ...dry(14)]
    expect(botrytisDays(hoursOf(noTemperature))[0]).toMatchObject({
      index: null,
      why: 'no temperature while wet',
    })
  })

  test('is complete where each hour of the day and of its spells is known', () => {
    const complete = (...parts: ReturnType<typeof wet>) => botrytisDays(hoursOf(parts))[0]!.complete
    expect(complete(...dry(6), ...wet(8, 20), ...dry(10))).toBe(true)
    expect(complete(...dry(6), ...wet(8, 20), ...dry(8), {}, ...dry(1))).toBe(false)
    expect(complete(...wet(8, 20), ...dry(16))).toBe(false)
  })

  test('a missing hour never changes a complete day', () => {
    fc.assert(
      fc.property(withAndWithoutGaps(4), ({ known, gappy }) => {
        const whole = botrytisDays(known)
        for (const [at, day] of botrytisDays(gappy).entries())
          if (day.complete) expect(day).toEqual(whole[at])
      }),
    )
  })
})
