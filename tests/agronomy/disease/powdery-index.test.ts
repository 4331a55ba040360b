import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { powderyIndex } from '../../../src/agronomy/disease/powdery-index.ts'
import { hoursOf, knownDays, powderyDay, times, withAndWithoutGaps } from '../weather-maker.ts'

const indices = (days: ReturnType<typeof powderyDay>[]) =>
  powderyIndex(hoursOf(days.flat())).map(({ index }) => index)

/** Good days, each of which adds 20: after three of them the index runs. */
const good = (count: number) => Array.from({ length: count }, () => powderyDay(6))

describe('start and running phase', () => {
  test('an unfavourable day resets only before 60', () => {
    expect(indices([powderyDay(6), powderyDay(6), powderyDay(5), powderyDay(6)])).toEqual([20, 40, 0, 20])
    expect(indices([powderyDay(6), powderyDay(6), powderyDay(6), powderyDay(5)])).toEqual([20, 40, 60, 50])
  })

  test('heat is ignored in the start phase, and in the running phase a good hot day adds 10', () => {
    expect(indices([powderyDay(6, true), powderyDay(6), powderyDay(6), powderyDay(6, true)])).toEqual([
      20, 40, 60, 70,
    ])
  })

  test('a bad hot day takes 10, not 20, and never goes below 0', () => {
    const bad = Array.from({ length: 8 }, () => powderyDay(0, true))
    expect(indices([...good(3), ...bad]).slice(3)).toEqual([50, 40, 30, 20, 10, 0, 0, 0])
  })

  test('begins on the start day', () => {
    const days = powderyIndex(hoursOf([powderyDay(6), powderyDay(6)].flat()), 1)
    expect(days.map(({ day, index, change, phase }) => ({ day, index, change, phase }))).toEqual([
      { day: 1, index: 20, change: 20, phase: 'start' },
    ])
  })

  test('an index of 60 runs already, and 100 is the highest', () => {
    expect(indices([...good(3), powderyDay(0)])).toEqual([20, 40, 60, 50])
    expect(indices([...good(2), powderyDay(0)])).toEqual([20, 40, 0])
    expect(indices(good(6))).toEqual([20, 40, 60, 80, 100, 100])
  })
})

describe('the hours', () => {
  const day = (temperature: number) => [...times(6, { temperature }), ...times(18, { temperature: 5 })]
  test.each([
    [(70 - 32) / 1.8, 6],
    [(85 - 32) / 1.8, 6],
    [21.11, 0],
    [29.45, 0],
  ])('six hours at %d °C: %d in range', (temperature, expected) => {
    expect(powderyIndex(hoursOf(day(temperature)))[0]!.hoursInRange).toBe(expected)
  })

  test('the usual rounding to 21-30 °C is not the rule', () => {
    expect(indices([day(21.05), day(29.8)])).toEqual([0, 0])
  })

  test('35.0 °C is hot, 34.9 is not', () => {
    const indexAfter = (temperature: number) => {
      const day = powderyDay(6)
      day[20] = { temperature }
      return indices([...good(3), day]).at(-1)
    }
    expect([indexAfter(34.9), indexAfter(35), indexAfter((95 - 32) / 1.8)]).toEqual([80, 70, 70])
  })

  test('six hours that are not continuous, or that lie over midnight, do not count', () => {
    const split = [...times(5, { temperature: 25 }), { temperature: 10 }, ...times(18, { temperature: 25 })]
    expect(
      powderyIndex(hoursOf(split.slice(0, 11).concat(times(13, { temperature: 5 }))))[0]!.hoursInRange,
    ).toBe(5)
    const midnight = [
      ...times(19, { temperature: 5 }),
      ...times(10, { temperature: 25 }),
      ...times(19, { temperature: 5 }),
    ]
    expect(powderyIndex(hoursOf(midnight)).map(({ hoursInRange }) => hoursInRange)).toEqual([5, 5])
  })

  test('a missing hour breaks the run, and the day says so', () => {
    const hours = powderyDay(6)
    hours[8] = { temperature: null }
    const [first] = powderyIndex(hoursOf(hours))
    expect(first).toMatchObject({
      hoursInRange: 3,
      index: 0,
      complete: false,
      low: 0,
      high: 20,
      missingHours: 1,
    })
  })

  test('a missing hour that cannot matter leaves the day complete', () => {
    const hours = powderyDay(0)
    hours[8] = { temperature: null }
    expect(powderyIndex(hoursOf(hours))[0]).toMatchObject({ index: 0, complete: true, missingHours: 1 })
  })

  test('a missing hour may have been the hot one, unless another was', () => {
    const gap = powderyDay(6)
    gap[20] = { temperature: null }
    const running = (day: ReturnType<typeof powderyDay>) => powderyIndex(hoursOf([...good(3), day].flat()))[3]
    // While it runs a good day adds 20, a good hot one 10.
    expect(running(gap)).toMatchObject({
      index: 80,
      low: 70,
      high: 80,
      complete: false,
    })
    const hotToo = [...gap]
    hotToo[22] = { temperature: 36 }
    expect(running(hotToo)).toMatchObject({
      index: 70,
      low: 70,
      high: 70,
      complete: true,
      missingHours: 1,
    })
    expect(running(powderyDay(6))).toMatchObject({
      low: 80,
      high: 80,
      complete: true,
    })
  })

  test('later days rest on the missing hour too, until a reset', () => {
    const gap = powderyDay(6)
    gap[8] = { temperature: null }
    const days = powderyIndex(hoursOf([gap, powderyDay(6), powderyDay(0)].flat()))
    expect(days.map(({ complete, low, high }) => ({ complete, low, high }))).toEqual([
      { complete: false, low: 0, high: 20 },
      { complete: false, low: 20, high: 40 },
      { complete: true, low: 0, high: 0 },
    ])
  })
})

describe('for any weather', () => {
  test('the index is a multiple of 10 from 0 to 100 and moves by allowed steps only', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 12 }), fc.boolean()), { maxLength: 40 }),
        (days) => {
          let before = 0
          for (const day of powderyIndex(hoursOf(days.flatMap(([run, hot]) => powderyDay(run, hot))))) {
            expect(day.index % 10).toBe(0)
            expect(day.index).toBeGreaterThanOrEqual(0)
            expect(day.index).toBeLessThanOrEqual(100)
            expect(day.change).toBe(day.index - before)
            if (day.phase === 'start') expect(day.change === 20 || day.index === 0).toBe(true)
            else expect([-10, 0, 10, 20]).toContain(day.change)
            before = day.index
          }
        },
      ),
    )
  })

  test('a missing hour never changes an index silently', () => {
    let gaps = 0
    fc.assert(
      fc.property(
        withAndWithoutGaps(
          5,
          fc.constantFrom([], good(3), good(5)).map((days) => days.flat()),
        ),
        ({ known, gappy }) => {
          const whole = powderyIndex(known)
          for (const [at, day] of powderyIndex(gappy).entries()) {
            if (day.complete) expect(day.index).toBe(whole[at]!.index)
            else gaps++
            expect(whole[at]!.index).toBeGreaterThanOrEqual(day.low)
            expect(whole[at]!.index).toBeLessThanOrEqual(day.high)
          }
        },
      ),
      // Enough weather that some of it leaves a gap open.
      { seed: 2, numRuns: 200 },
    )
    expect(gaps).toBeGreaterThan(0)
  })

  test('known weather is complete', () => {
    fc.assert(
      fc.property(knownDays(3), (parts) => powderyIndex(hoursOf(parts)).every(({ complete }) => complete)),
    )
  })
})
