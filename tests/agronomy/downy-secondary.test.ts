import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { downyGerminationHours } from '../../src/agronomy/downy-germination.ts'
import { downySecondary } from '../../src/agronomy/downy-secondary.ts'
import { downyWetnessProduct } from '../../src/agronomy/downy-wetness-product.ts'
import { type HourParts, hoursOf, times, withAndWithoutGaps } from './weather-maker.ts'

const night = () => ({ sunset: 21.5, sunrise: 5.5 })
const dryHour = { humidity: 60, temperature: 16, rain: 0, wetness: 0 }
/** Two days; the night between has `damp` humid hours from 22:00 and `wet` wet hours from 04:00. */
const secondNight = (damp: HourParts[], wetCount: number) => {
  const parts = times(48, dryHour)
  damp.forEach((part, at) => {
    parts[22 + at] = { ...dryHour, ...part }
  })
  for (let at = 0; at < wetCount; at++) parts[28 + at] = { ...parts[28 + at], wetness: 60 }
  return downySecondary(hoursOf(parts), { night })[1]!
}

describe('downySecondary', () => {
  const humid = { humidity: 98, temperature: 13 }
  test('a warm wet night, at every limit', () => {
    expect(secondNight(times(4, humid), 2)).toEqual({
      day: 1,
      secondary: true,
      why: 'warm wet night',
      humidDarkHours: 4,
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
    expect(downySecondary(hoursOf(parts), { night })[1]!.secondary).toBe(false)
  })
  test('humid hours by day do not count', () => {
    const parts = times(48, { ...dryHour, wetness: 60 })
    for (let at = 30; at < 40; at++) parts[at] = { ...parts[at], ...humid }
    expect(downySecondary(hoursOf(parts), { night })[1]!.secondary).toBe(false)
  })
  test('the night before the record is unknown', () => {
    const parts = times(24, { ...dryHour, wetness: 60 })
    expect(downySecondary(hoursOf(parts), { night })[0]).toMatchObject({ secondary: false })
    const damp = times(24, { ...humid, wetness: 60, rain: 0 }).map((part, at) =>
      at < 2 ? part : { ...part, humidity: 60 },
    )
    expect(downySecondary(hoursOf(damp), { night })[0]).toMatchObject({
      secondary: null,
      why: 'data missing',
    })
  })
  test('a missing hour never changes a verdict silently', () => {
    fc.assert(
      fc.property(withAndWithoutGaps(3), ({ known, gappy }) => {
        const whole = downySecondary(known, { night, humidity: 90, temperature: 10, darkHours: 2 })
        const found = downySecondary(gappy, { night, humidity: 90, temperature: 10, darkHours: 2 })
        for (const [at, { secondary }] of found.entries())
          if (secondary !== null) expect(secondary).toBe(whole[at]!.secondary)
      }),
    )
  })
})

test('three thresholds of the wetness product', () => {
  expect([downyWetnessProduct(3, 15).infection, downyWetnessProduct(2.99, 15).infection]).toEqual([
    true,
    false,
  ])
  expect([downyWetnessProduct(4, 12.5, 50).infection, downyWetnessProduct(4, 14.9, 60).infection]).toEqual([
    true,
    false,
  ])
  expect(() => downyWetnessProduct(-1, 15)).toThrow(RangeError)
})

test('germination has no value outside the table', () => {
  expect([downyGerminationHours(5.9), downyGerminationHours(23.1)]).toEqual([null, null])
  expect(downyGerminationHours(15.5)).toBeCloseTo(1.25)
  expect(downyGerminationHours(15.5, 'smaller')).toBe(1)
})
