import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { downyPrimary } from '../../../src/agronomy/disease/downy-primary.ts'
import {
  DOWNY_PRIMARY_RULES,
  type DownyPrimaryRule,
  type DownyPrimaryVariant,
} from '../../../src/agronomy/disease/downy-primary-rules.ts'
import { everyHour } from '../../../src/agronomy/weather/weather-hours.ts'
import { hoursOf, rowsOf, times, withAndWithoutGaps } from '../weather-maker.ts'

const TEN_TEN = DOWNY_PRIMARY_RULES['ten-ten-twentyfour']
const BY_MEAN = { ...TEN_TEN, temperatureAs: 'mean' } as const
/** `before` known dry days, then a day with this rain spread over its 24 hours. */
const dayWith = (rain: number, temperature: number, rule = TEN_TEN) => {
  const parts = [...times(48, { rain: 0, temperature }), ...times(24, { rain: rain / 24, temperature })]
  return downyPrimary(hoursOf(parts), rule)[2]!
}

describe('ten-ten-twentyfour', () => {
  test.each([
    [10, 10, true],
    [9.9, 10, false],
    [10, 9.9, false],
  ])('%d mm at %d °C: %s', (rain, temperature, expected) => {
    expect(dayWith(rain, temperature).primary).toBe(expected)
  })

  test('the window moves over midnight; a calendar day does not', () => {
    const night = [
      ...times(42, { rain: 0, temperature: 12 }),
      ...times(12, { rain: 1, temperature: 12 }),
      ...times(18, { rain: 0, temperature: 12 }),
    ]
    const primary = (own: Partial<DownyPrimaryRule>) =>
      downyPrimary(hoursOf(night), { ...TEN_TEN, ...own }).map((day) => day.primary)
    expect(primary({})).toEqual([null, false, true])
    expect(primary({ window: 'calendar' })).toEqual([false, false, false])
    expect(primary({ window: 'calendar', days: 2 })).toEqual([null, false, true])
  })

  test('two calendar days are two of the calendar where the clock skips an hour', () => {
    const rows = rowsOf(times(72, { rain: 0, temperature: 12 }))
    rows[23] = { ...rows[23]!, rain: 5 }
    rows[60] = { ...rows[60]!, rain: 5 }
    const hours = everyHour(
      rows.filter((_, at) => at !== 26),
      { skipped: new Set([26]) },
    )
    const days = downyPrimary(hours, DOWNY_PRIMARY_RULES['three-tens'])
    expect(days[1]!.why).toBe('at most 5.0 mm within 48 h, 10 mm needed')
    expect(days[2]).toMatchObject({ primary: false, why: 'at most 5.0 mm within 48 h, 10 mm needed' })
    expect(days[0]!.why).toBe('rain of 24 h in 48 h is missing')
  })

  test('falls a day apart are not one of 24 hours, and the greater is named', () => {
    const parts = times(96, { rain: 0, temperature: 12 })
    parts[50] = { rain: 5, temperature: 12 }
    parts[74] = { rain: 4, temperature: 12 }
    expect(downyPrimary(hoursOf(parts), TEN_TEN)[3]!.why).toBe('at most 5.0 mm within 24 h, 10 mm needed')
    parts[50] = { rain: 7, temperature: 12 }
    parts[74] = { rain: 6, temperature: 12 }
    expect(downyPrimary(hoursOf(parts), TEN_TEN)[3]).toMatchObject({
      primary: false,
      why: 'at most 7.0 mm within 24 h, 10 mm needed',
    })
  })

  test('one hour below 10 °C spoils the minimum, not the mean', () => {
    const parts = times(48, { rain: 0.5, temperature: 12 })
    for (let at = 6; at < 48; at += 12) parts[at] = { rain: 0.5, temperature: 9.9 }
    expect(downyPrimary(hoursOf(parts), TEN_TEN)[1]).toMatchObject({
      primary: false,
      why: 'enough rain in 24 h, but an hour below 10 °C',
    })
    expect(downyPrimary(hoursOf(parts), BY_MEAN)[1]!.primary).toBe(true)
  })

  test('says why', () => {
    expect(dayWith(12, 12).why).toBe('12.0 mm within 24 h, no hour below 10 °C')
    expect(dayWith(3, 12).why).toBe('at most 3.0 mm within 24 h, 10 mm needed')
  })
})

describe('missing hours', () => {
  test('missing rain is unknown, never zero, unless the known rain is enough', () => {
    const parts = times(72, { rain: 0.1, temperature: 12 })
    parts[60] = { temperature: 12 }
    expect(downyPrimary(hoursOf(parts), TEN_TEN)[2]).toMatchObject({
      primary: null,
      why: 'rain of 1 h in 24 h is missing',
    })
    const wet = times(72, { rain: 1, temperature: 12 })
    wet[60] = { temperature: 12 }
    expect(downyPrimary(hoursOf(wet), TEN_TEN)[2]!.primary).toBe(true)
  })

  test('a missing temperature leaves a wet window open', () => {
    const parts = times(72, { rain: 0.5, temperature: 12 })
    for (let at = 24; at < 72; at += 12) parts[at] = { rain: 0.5 }
    expect(downyPrimary(hoursOf(parts), TEN_TEN)[2]).toMatchObject({
      primary: null,
      why: 'temperature of 2 h in 24 h is missing',
    })
  })

  test('the hours before the record are unknown, so the first day has no all-clear', () => {
    expect(downyPrimary(hoursOf(times(24, { rain: 0, temperature: 12 })), TEN_TEN)[0]!.primary).toBe(null)
    expect(downyPrimary(hoursOf(times(24, { rain: 0, temperature: 5 })), TEN_TEN)[0]!.primary).toBe(false)
  })

  test('never change a verdict silently, by any variant', () => {
    let open = 0
    const variants = Object.keys(DOWNY_PRIMARY_RULES) as DownyPrimaryVariant[]
    fc.assert(
      fc.property(withAndWithoutGaps(4), fc.constantFrom(...variants), ({ known, gappy }, variant) => {
        const whole = downyPrimary(known, DOWNY_PRIMARY_RULES[variant])
        for (const [at, { primary }] of downyPrimary(gappy, DOWNY_PRIMARY_RULES[variant]).entries())
          if (primary === null) open++
          else expect(primary).toBe(whole[at]!.primary)
      }),
    )
    expect(open).toBeGreaterThan(0)
  })
})

test('the variants differ at their limits', () => {
  expect(dayWith(10, 10, DOWNY_PRIMARY_RULES['three-tens']).primary).toBe(true)
  expect(dayWith(10, 10, DOWNY_PRIMARY_RULES['three-tens-minimum']).primary).toBe(false)
  expect(dayWith(10.1, 10, DOWNY_PRIMARY_RULES['three-tens-minimum']).primary).toBe(true)
  expect([
    dayWith(10, 12, DOWNY_PRIMARY_RULES['mean-above-12']).primary,
    dayWith(10, 12.1, DOWNY_PRIMARY_RULES['mean-above-12']).primary,
  ]).toEqual([false, true])
  expect([
    dayWith(2.5, 11, DOWNY_PRIMARY_RULES['little-rain']).primary,
    dayWith(2.4, 11, DOWNY_PRIMARY_RULES['little-rain']).primary,
  ]).toEqual([true, false])
})

/** Every window of a day one by one, without any short cut; the latest that infects is the one that is named. */
function slowly(hours: ReturnType<typeof hoursOf>, day: number): { primary: boolean | null; why: string } {
  const found: { rank: number; rain: number; primary: boolean | null; why: string }[] = []
  for (let end = day * 24 + 23; end >= day * 24 && found.at(-1)?.primary !== true; end--) {
    const window = Array.from({ length: 24 }, (_, at) => hours[end - 23 + at])
    const rains = window.flatMap((hour) => hour?.rain ?? [])
    const warmths = window.flatMap((hour) => hour?.temperature ?? [])
    const rain = rains.reduce((sum, one) => sum + one, 0)
    const isWet = rain >= 10 - 1e-9
    const cold = warmths.some((warmth) => warmth < 10)
    const add = (rank: number, primary: boolean | null, why: string) =>
      found.push({ rank, rain, primary, why })
    if (!isWet && rains.length === 24)
      add(1, false, `at most ${rain.toFixed(1)} mm within 24 h, 10 mm needed`)
    else if (cold && isWet) add(3, false, 'enough rain in 24 h, but an hour below 10 °C')
    else if (cold) add(2, false, 'too cold for infection, though hours of rain are missing')
    else if (!isWet) add(4, null, `rain of ${24 - rains.length} h in 24 h is missing`)
    else if (warmths.length < 24) add(4, null, `temperature of ${24 - warmths.length} h in 24 h is missing`)
    else add(5, true, `${rain.toFixed(1)} mm within 24 h, no hour below 10 °C`)
  }
  const { primary, why } = found.reduce((best, one) =>
    one.rank > best.rank || (one.rank === best.rank && one.rain > best.rain + 1e-9) ? one : best,
  )
  return { primary, why }
}

test('the short cuts find what every window of the day one by one does, and say why in the same words', () => {
  const part = fc.record({
    temperature: fc.constantFrom(9.9, 10, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12),
    rain: fc.constantFrom(0, 0, 0, 0, 0.5, 0.5, 1, 2),
  })
  const gaps = fc.uniqueArray(fc.tuple(fc.nat(71), fc.boolean(), fc.boolean()), {
    maxLength: 3,
    selector: ([at]) => at,
  })
  fc.assert(
    fc.property(fc.array(part, { minLength: 72, maxLength: 72 }), gaps, (parts, dropped) => {
      const some = parts.map((one, at) => {
        const [, rain, temperature] = dropped.find(([hour]) => hour === at) ?? []
        return {
          ...(rain ? {} : { rain: one.rain }),
          ...(temperature ? {} : { temperature: one.temperature }),
        }
      })
      const hours = hoursOf(some)
      for (const { day, primary, why } of downyPrimary(hours, TEN_TEN))
        expect({ day, primary, why }).toEqual({ day, ...slowly(hours, day) })
    }),
  )
})

test.each([
  [9, 'enough rain in 24 h, but mean 9.0 °C, 10 °C needed'],
  [11, '12.0 mm within 24 h, mean 11.0 °C'],
])('by the mean, 12 mm at %d °C: %s', (temperature, why) => {
  expect(dayWith(12, temperature, BY_MEAN).why).toBe(why)
})
