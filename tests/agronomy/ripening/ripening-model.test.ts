import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { chanceCurve, dayOfShare, seasonOf } from '../../../src/agronomy/ripening/chance-curve.ts'
import { worthOfSample } from '../../../src/agronomy/ripening/next-sample.ts'
import { learn, lessonOf } from '../../../src/agronomy/ripening/past-seasons.ts'
import { believe, type Reading } from '../../../src/agronomy/ripening/ripening-model.ts'
import { SUGAR } from '../../../src/agronomy/ripening/ripening-prior.ts'
import { sampleVariance } from '../../../src/agronomy/ripening/sample-error.ts'
import { NO_WARMTH, warmthOf } from '../../../src/agronomy/ripening/warmth.ts'

/** A season of readings every so many days. */
const season = (values: readonly number[], every = 7, variance = 0.03) => {
  const readings = values.map(
    (value, at): Reading => ({ day: 1000 + every * at, value, variance, sampled: true }),
  )
  return seasonOf(readings, SUGAR, NO_WARMTH)
}
const curveOf = (of: ReturnType<typeof season>, target: number) =>
  chanceCurve(of, { target, until: 1000 + 120, shift: SUGAR.shared ** 2 })

const courses = fc
  .tuple(
    fc.double({ min: 7, max: 20, noNaN: true }),
    fc.array(fc.double({ min: -1, max: 3, noNaN: true }), { minLength: 0, maxLength: 5 }),
  )
  .map(([first, steps]) => {
    const values = [first]
    for (const change of steps) values.push(values.at(-1)! + change)
    return values
  })

describe('the chance', () => {
  test('never falls with time, and lies within 0 and 1', () => {
    fc.assert(
      fc.property(courses, fc.double({ min: 12, max: 26, noNaN: true }), (values, target) => {
        const curve = curveOf(season(values), target)
        const chances = Array.from({ length: curve.length }, (_, at) => curve.on(at))
        chances.forEach((chance, at) => {
          expect(chance).toBeGreaterThanOrEqual(chances[at - 1] ?? 0)
          expect(chance).toBeLessThanOrEqual(1)
        })
      }),
      { numRuns: 60 },
    )
  })

  test('a higher target is never earlier', () => {
    fc.assert(
      fc.property(
        courses,
        fc.double({ min: 12, max: 25, noNaN: true }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        (values, target, more) => {
          const of = season(values)
          const [low, high] = [curveOf(of, target), curveOf(of, target + more)]
          for (const share of [0.05, 0.5, 0.95]) {
            const [sooner, later] = [dayOfShare(low, share), dayOfShare(high, share)]
            if (later !== null) expect(sooner).not.toBeNull()
            if (later !== null && sooner !== null) expect(sooner).toBeLessThanOrEqual(later)
          }
        },
      ),
      { numRuns: 60 },
    )
  })

  test('a target passed some weeks ago lies in the past, by all readings', () => {
    const curve = curveOf(season([15.1, 16.4, 17.9, 19.2]), 17)
    expect(dayOfShare(curve, 0.5)! - 1000).toBeGreaterThanOrEqual(8)
    expect(dayOfShare(curve, 0.5)! - 1000).toBeLessThanOrEqual(13)
  })

  test('a tenth below the target is a matter of days', () => {
    const curve = curveOf(season([17.9]), 18)
    expect(dayOfShare(curve, 0.5)! - 1000).toBeLessThanOrEqual(2)
    expect(curve.on(0)).toBeGreaterThan(0.25)
  })

  test('a target out of reach leaves the late end open', () => {
    expect(dayOfShare(curveOf(season([16, 16.4, 16.5, 16.6]), 25), 0.95)).toBeNull()
  })
})

describe('what is known', () => {
  const width = (of: ReturnType<typeof season>, target = 20) =>
    dayOfShare(curveOf(of, target), 0.95)! - dayOfShare(curveOf(of, target), 0.05)!

  test('more berries and more samples narrow the window', () => {
    expect(width(season([13, 15, 16.6, 18], 7, 1.75 ** 2 / 20))).toBeGreaterThan(
      width(season([13, 15, 16.6, 18], 7, 1.75 ** 2 / 200)),
    )
    expect(width(season([16.4, 18]), 21)).toBeGreaterThan(width(season([11.6, 13.2, 14.8, 16.4, 18]), 21))
  })

  test('the spread between readings says how far a mean may be off, the usual spread where they are few', () => {
    expect(sampleVariance({ berries: 100 }, 1.75)).toBeCloseTo(0.030625, 9)
    expect(sampleVariance({}, 1.75)).toBeCloseTo(1.75 ** 2 / 60, 9)
    const near = sampleVariance({ berries: 100, readings: { sd: 0.1, n: 5 } }, 1.75)
    const far = sampleVariance({ berries: 100, readings: { sd: 0.9, n: 5 } }, 1.75)
    expect(near).toBeCloseTo((4 * 0.030625 + (4 * 0.01) / 5) / 8, 9)
    expect(far).toBeGreaterThan(0.030625)
    expect(sampleVariance({ berries: 100, readings: { sd: 9, n: 2 } }, 1.75)).toBeCloseTo(0.030625, 9)
  })

  test('past seasons bring the rate to theirs and narrow it, other blocks of the variety less', () => {
    const fast = lessonOf(season([9, 11.4, 13.8, 16.2, 18.6]).believed, SUGAR)
    const own = learn(SUGAR, { own: [fast, fast], variety: [] })
    const other = learn(SUGAR, { own: [], variety: [fast, fast] })
    for (const [slowing] of SUGAR.slowing.slice(0, 2)) {
      const [after, elsewhere] = [own, other].map(({ learned }) => learned!.get(slowing)!)
      expect(elsewhere!.mean).toBeGreaterThan(SUGAR.rate.mean)
      expect(elsewhere!.mean).toBeLessThan(after!.mean)
      expect(after!.spread).toBeLessThan(elsewhere!.spread)
      expect(elsewhere!.spread).toBeLessThan(SUGAR.rate.spread)
    }
    expect(own.learned!.get(0)!.mean).toBeGreaterThan(0.28)
    expect(own.slowing.reduce((sum, [, share]) => sum + share, 0)).toBeCloseTo(1, 2)
    const none = { ...fast, shares: { ...fast.shares, slowing: SUGAR.slowing.map(() => 0) } }
    expect(learn(SUGAR, { own: [none], variety: [] }).slowing.every(([, share]) => share > 0)).toBe(true)
    for (const { mean, spread } of learn(SUGAR, { own: [], variety: [] }).learned!.values()) {
      expect(mean).toBeCloseTo(SUGAR.rate.mean, 9)
      expect(spread).toBeCloseTo(SUGAR.rate.spread, 9)
    }
  })

  test('a past season that slowed teaches a lower rate near its end the more it is taken to have slowed', () => {
    const slowed = lessonOf(season([9, 11.8, 14, 15.7, 17]).believed, SUGAR)
    const { learned } = learn(SUGAR, { own: [slowed, slowed], variety: [] })
    const rates = [0, 0.013, 0.026].map((slowing) => learned!.get(slowing)!.mean)
    expect(rates).toEqual(rates.toSorted((a, b) => b - a))
    expect(rates[0]! - rates[2]!).toBeGreaterThan(0.01)
  })

  test('warmth is measured against the course of the season itself', () => {
    const means = new Map(Array.from({ length: 60 }, (_, at) => [at, 20 - 0.1 * at] as const))
    expect(warmthOf(means, 59)(59)).toBeCloseTo(0, 9)
    for (const day of [60, 61, 62]) means.set(day, 20 - 0.1 * day + 4)
    expect(warmthOf(means, 59)(62)).toBeCloseTo(4, 9)
    expect(warmthOf(means, 59)(90)).toBeUndefined()
    expect(warmthOf(new Map([[1, 20]]), 1)(1)).toBeUndefined()
  })

  test('a warm spell in the rising weeks is not taken for the rate to come', () => {
    const warm = Array.from({ length: 22 }, (_, at) => (at >= 14 ? 6 : -1))
    const readings = [13, 14.4, 15.8, 18.2].map(
      (value, at): Reading => ({ day: 7 * at, value, variance: 0.03, sampled: true }),
    )
    const level = (warmth: (day: number) => number | undefined) =>
      believe(readings, SUGAR, warmth).reduce(
        (sum, { share, state, slowing }) => sum + share * (state.rate - slowing * state.level),
        0,
      )
    expect(level((day) => warm[day])).toBeLessThan(level(NO_WARMTH))
  })

  test('the worth of a sample: some days of the window, more with more berries, none negative', () => {
    const of = season([13, 15, 16.6])
    const at = (day: number) => worthOfSample(of, { day: 1014 + day, likely: 1034, width: 24 })
    expect(at(7).narrowsDays).toBeGreaterThan(1)
    expect(at(7).narrowsDays).toBeLessThan(24)
    expect(at(7).narrowsDays).toBeGreaterThan(at(1).narrowsDays)
    expect([50, 100, 150, 200]).toContain(at(7).berries)
  })
})
