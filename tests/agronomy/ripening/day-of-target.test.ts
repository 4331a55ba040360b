import { describe, expect, test } from 'vitest'
import { daysOfTarget } from '../../../src/agronomy/ripening/day-of-target.ts'
import type { RipeningForecast } from '../../../src/agronomy/ripening/ripening-forecast.ts'

/** A forecast of nothing but its chance, which the cases draw by hand. */
const forecast = (reachedBy: RipeningForecast['reachedBy']): RipeningForecast => ({
  rate: 0.2,
  rising: 1,
  reachedBy,
})
const share = (value: number) => Math.max(0, Math.min(1, value))

/** One per cent a day from day -10 on; each °Brix over 20 comes four days later. */
const straight = forecast((x, target) => share((x + 10 - 4 * (target - 20)) / 100))
const wide = { start: -10, end: 60, from: 20 }

describe('days by which a target is reached', () => {
  test('with the share asked for of the chance that it is reached by the end at all', () => {
    const { days, within } = daysOfTarget(straight, { ...wide, shares: [0.05, 0.5, 0.95] })(20)
    expect(within).toBeCloseTo(0.7, 12)
    // 0.7 is certain here: half of it is 35 % and so day 25, from -10 on.
    expect(days.map((day) => Number(day.toFixed(9)))).toEqual([-6.5, 25, 56.5])
  })

  test('run straight between half degrees, and are held at neither', () => {
    const days = daysOfTarget(straight, { ...wide, shares: [0.5] })
    for (const [target, day] of [
      [20.5, 26],
      [21, 27],
      [20.2, 25.4],
      [20.9, 26.8],
      [25, 35],
    ] as const)
      expect(days(target).days[0]).toBeCloseTo(day, 9)
  })

  test('below what the samples have passed nothing is held', () => {
    expect(daysOfTarget(straight, { ...wide, shares: [0.5] })(19).days[0]).toBeCloseTo(23, 9)
    // A fall at 19.5 that a hold from there on would carry to 19.9.
    const odd = forecast((x, target) => share((x - (target === 19.5 ? 40 : 0)) / 100))
    expect(daysOfTarget(odd, { ...wide, start: 0, shares: [0.5] })(19.9).days[0]).toBeCloseTo(30, 9)
  })

  test('are true to a bending chance within a hundredth of a day, between the days that are looked at', () => {
    const bending = forecast((x) => share((x / 60) ** 2))
    for (const day of [3.3, 17.4, 29.5, 30, 44.6, 58.7])
      expect(
        Math.abs(
          daysOfTarget(bending, { start: 0, end: 60, from: 20, shares: [(day / 60) ** 2] })(20).days[0]! -
            day,
        ),
      ).toBeLessThan(0.04)
  })

  test('are held at the latest of all lower targets, not of one of them', () => {
    // From 21 on only quick lines are left, by 23 quicker still.
    const quick = forecast((x, target) =>
      target > 21 ? share(Math.min(x, 20 - (target - 21)) / 100) : straight.reachedBy(x, target),
    )
    const days = daysOfTarget(quick, { ...wide, shares: [0.5] })
    for (const target of [21, 21.5, 22, 22.3, 24]) expect(days(target).days[0]).toBeCloseTo(27, 9)
  })

  test('a higher target is not earlier, though it could be by those lines alone that reach it', () => {
    // Over 21 only quick lines are left: by day 20 or not at all.
    const torn = forecast((x, target) =>
      target > 21 ? share(x / 100 > 0.2 ? 0.2 : x / 100) : share(x / 100),
    )
    const days = daysOfTarget(torn, { start: 0, end: 60, from: 20, shares: [0.5] })
    expect(days(21).days[0]).toBeCloseTo(30, 9)
    expect(days(22).days[0]).toBeCloseTo(30, 9)
    expect(days(22).within).toBeCloseTo(0.2, 12)
  })

  test('the first day that is looked at stands where the chance is there already', () => {
    const days = daysOfTarget(straight, { ...wide, start: 0, shares: [0.1, 0.5] })(20).days
    // 10 % of 0.7 were reached by day -3.
    expect(days[0]).toBe(0)
    expect(days[1]).toBeCloseTo(25, 9)
    // Where nothing is held either: 10 % of 0.74 by day -6.6.
    expect(daysOfTarget(straight, { ...wide, start: 0, shares: [0.1] })(19).days).toEqual([0])
  })

  test('the last day stands where the chance comes up only then, and no step goes past it', () => {
    const late = forecast((x) => (x >= 58 ? 1 : 0))
    const seen: number[] = []
    const watched = forecast((x) => {
      seen.push(x)
      return late.reachedBy(x, 20)
    })
    const { days } = daysOfTarget(watched, { ...wide, start: 0, shares: [0.5] })(20)
    expect(days[0]).toBeGreaterThan(57)
    expect(days[0]).toBeLessThanOrEqual(58)
    expect(Math.max(...seen)).toBe(60)
    expect(
      daysOfTarget(late, { start: 0, end: 58, from: 20, shares: [0.5] })(20).days[0],
    ).toBeLessThanOrEqual(58)
  })

  test('there is no day where there is no chance, and none is held against a lower target', () => {
    const never = forecast((x, target) => (target > 22 ? 0 : share(x / 50)))
    const days = daysOfTarget(never, { start: 0, end: 60, from: 20, shares: [0.5] })
    expect(days(22.5)).toEqual({ days: [], within: 0 })
    expect(days(19).days).toHaveLength(1)
    const none = daysOfTarget(
      forecast(() => 0),
      { start: 0, end: 60, from: 20, shares: [0.5] },
    )
    expect(none(19)).toEqual({ days: [], within: 0 })
    // Half way to a target that is out of reach the days run towards the end of the search.
    expect(days(22.25).days).toEqual([])
    expect(days(21.75).days[0]).toBeCloseTo(25, 9)
  })

  test('each target is asked about once a day, however often it is asked for', () => {
    let asked = 0
    const counting = forecast((x, target) => {
      asked += 1
      return straight.reachedBy(x, target)
    })
    const days = daysOfTarget(counting, { ...wide, shares: [0.5, 0.5, 0.5] })
    days(21)
    const once = asked
    days(21)
    // The chance by the end is asked anew; the steps are known.
    expect(asked).toBe(once + 1)
  })
})
