import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { downySecondary } from '../../../src/agronomy/disease/downy-secondary.ts'
import type { EveryHour } from '../../../src/agronomy/weather/weather-hours.ts'
import { wetHours } from '../../../src/agronomy/weather/wet-hours.ts'
import { type HourParts, hoursOf, times, withAndWithoutGaps } from '../weather-maker.ts'

const secondaryOf = (hours: EveryHour, { night }: Pick<Parameters<typeof downySecondary>[1], 'night'>) =>
  downySecondary(hours, { wetness: wetHours(hours), night })

const night = () => ({ sunset: 21.5, sunrise: 5.5 })
const dryHour = { humidity: 60, temperature: 16, rain: 0, wetness: 0 }
/** Two days; the night between has `damp` humid hours from 22:00 and `wet` wet hours from 04:00. */
const secondNight = (damp: HourParts[], wetCount: number) => {
  const parts = times(48, dryHour)
  damp.forEach((part, at) => {
    parts[22 + at] = { ...dryHour, ...part }
  })
  for (let at = 0; at < wetCount; at++) parts[28 + at] = { ...parts[28 + at], wetness: 60 }
  return secondaryOf(hoursOf(parts), { night })[1]!
}

describe('downySecondary', () => {
  const humid = { humidity: 98, temperature: 13 }
  test('a warm wet night, at every limit', () => {
    expect(secondNight(times(4, humid), 2)).toEqual({
      day: 1,
      secondary: true,
      why: 'warm wet night',
    })
  })
  test.each([
    ['3 humid hours', times(3, humid), 2, 'no humid warm dark hours'],
    ['97 %', times(4, { ...humid, humidity: 97 }), 2, 'no humid warm dark hours'],
    ['12.9 °C', times(4, { ...humid, temperature: 12.9 }), 2, 'no humid warm dark hours'],
    ['1 wet hour', times(4, humid), 1, 'leaves dry at dawn'],
  ])('not with %s', (_, damp, wetCount, why) => {
    expect(secondNight(damp, wetCount)).toMatchObject({ secondary: false, why })
  })
  test('leaves wet only before the spores are there do not count', () => {
    const parts = times(48, dryHour)
    for (let at = 23; at < 27; at++) parts[at] = { ...dryHour, wetness: 60 }
    for (let at = 25; at < 29; at++) parts[at] = { ...parts[at], ...humid }
    expect(secondaryOf(hoursOf(parts), { night })[1]!.secondary).toBe(false)
  })
  test('the hour in which the sun rises is not dark', () => {
    const parts = times(48, dryHour)
    // 2:00 to 5:59, the sun rising at 5:30; leaves wet all morning.
    for (let at = 26; at < 30; at++) parts[at] = { ...dryHour, ...humid }
    for (let at = 28; at < 36; at++) parts[at] = { ...parts[at], wetness: 60 }
    expect(secondaryOf(hoursOf(parts), { night })[1]).toMatchObject({
      secondary: false,
      why: 'no humid warm dark hours',
    })
  })
  test('leaves may be wet while it goes on being humid, from the fourth such hour on and not before', () => {
    const nightOf = (humidFrom: number, humidTo: number, wetAt: number[]) => {
      const parts = times(48, dryHour)
      for (let at = humidFrom; at < humidTo; at++) parts[at] = { ...dryHour, ...humid }
      for (const at of wetAt) parts[at] = { ...parts[at], wetness: 60 }
      return secondaryOf(hoursOf(parts), { night })[1]!
    }
    // Humid from 22:00 to 5:00, wet at 2:00 and 3:00.
    expect(nightOf(22, 29, [26, 27])).toMatchObject({ secondary: true })
    // Humid from 0:00 to 4:00, of two wet hours one before its end.
    expect(nightOf(24, 28, [27, 28])).toMatchObject({ secondary: false, why: 'leaves dry at dawn' })
    expect(nightOf(24, 28, [28, 29]).secondary).toBe(true)
  })
  test.each([
    ['humidity', { temperature: 16 }],
    ['temperature', { humidity: 99 }],
  ])('one dark hour without %s leaves open a night that it could make', (_, known) => {
    const parts = [...times(3, humid), { humidity: null, temperature: null, ...known }]
    expect(secondNight(parts, 2)).toMatchObject({ secondary: null, why: 'data missing' })
    // The known hours are enough to rule it out.
    const cold = { humidity: null, temperature: 12 }
    const dryAir = { humidity: 90, temperature: null }
    for (const part of [cold, dryAir])
      expect(secondNight([...times(3, humid), part], 2).secondary).toBe(false)
  })
  test('an hour of unknown wetness at dawn leaves a humid night open, and only that', () => {
    const parts = (damp: HourParts) => {
      const all = times(48, dryHour)
      for (let at = 22; at < 27; at++) all[at] = { ...dryHour, ...damp }
      all[29] = { ...all[29], wetness: null, rain: null, humidity: null }
      all[30] = { ...dryHour, wetness: 60 }
      return secondaryOf(hoursOf(all), { night })[1]!.secondary
    }
    expect(parts(humid)).toBe(null)
    expect(parts(dryHour)).toBe(false)
  })
  test('by rain and humidity where wetness is not measured', () => {
    const nightWith = (dawn: number) =>
      times(48, { humidity: 60, temperature: 16, rain: 0 }).map((part, at) =>
        at >= 22 && at < 26
          ? { ...part, humidity: 99 }
          : at >= 28 && at < 30
            ? { ...part, humidity: dawn }
            : part,
      )
    const secondary = (dawn: number) => secondaryOf(hoursOf(nightWith(dawn)), { night })[1]!.secondary
    expect([secondary(89), secondary(90)]).toEqual([false, true])
  })
  test('humid hours by day do not count', () => {
    const parts = times(48, { ...dryHour, wetness: 60 })
    for (let at = 30; at < 40; at++) parts[at] = { ...parts[at], ...humid }
    expect(secondaryOf(hoursOf(parts), { night })[1]!.secondary).toBe(false)
  })
  test('the night before the record is unknown', () => {
    const parts = times(24, { ...dryHour, wetness: 60 })
    expect(secondaryOf(hoursOf(parts), { night })[0]).toMatchObject({ secondary: false })
    const damp = times(24, { ...humid, wetness: 60, rain: 0 }).map((part, at) =>
      at < 2 ? part : { ...part, humidity: 60 },
    )
    expect(secondaryOf(hoursOf(damp), { night })[0]).toMatchObject({
      secondary: null,
      why: 'data missing',
    })
  })
  test('a missing hour never changes a verdict silently', () => {
    fc.assert(
      fc.property(withAndWithoutGaps(3), ({ known, gappy }) => {
        const whole = secondaryOf(known, { night })
        const found = secondaryOf(gappy, { night })
        for (const [at, { secondary }] of found.entries())
          if (secondary !== null) expect(secondary).toBe(whole[at]!.secondary)
      }),
    )
  })
})
