import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { sugarRequirements, sugarTargets } from '../../../src/agronomy/heat/heat-requirements.ts'
import { heatStage, stageSumStart, sugarSumStart } from '../../../src/agronomy/heat/heat-stage.ts'
import { projectHeatSum } from '../../../src/agronomy/heat/project-heat-sum.ts'
import { vegaDays } from '../../published/vega-weather.ts'

const mean = fc.integer({ min: -100, max: 600 }).map((n) => n / 20)
const futureYears = (n: number, length = 60) =>
  fc.array(
    fc.array(fc.oneof({ weight: 12, arbitrary: mean }, fc.constant(null)), {
      minLength: length,
      maxLength: length,
    }),
    {
      minLength: n,
      maxLength: n + 4,
    },
  )

describe('heatStage', () => {
  test('a tie is reached on its day, on decimals that a float sum misses', () => {
    const means = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.1]
    expect(heatStage({ startDay: 100, means, requirement: 5.6 }).day).toBe(109)
    expect(heatStage({ startDay: 100, means, requirement: 4.5 }).day).toBe(108)
    expect(heatStage({ startDay: 100, means, requirement: 4.51 }).day).toBe(109)
  })

  test('a float sum is a day late for Pinot noir at Seattle in 2012', () => {
    const means = vegaDays('Seattle', '2012-03-01', '2012-12-31').map(({ min, max }) => (min + max) / 2)
    let sum = 0
    const plain = means.findIndex((each) => {
      sum += Math.max(0, each)
      return sum >= 1219
    })
    expect(heatStage({ startDay: 0, means, requirement: 1219 }).day).toBe(plain - 1)
  })

  test('frost takes nothing back', () => {
    expect(heatStage({ startDay: 0, means: [10, -8, 10], requirement: 20 }).day).toBe(2)
  })

  test('says how far it is, and that days are unknown', () => {
    expect(heatStage({ startDay: 0, means: [10, null, 12], requirement: 100 })).toEqual({
      day: null,
      sum: 22,
      missing: 1,
      reason: 'the sum is 22 of 100 °C-days, with 1 of 3 days unknown',
    })
    expect(heatStage({ startDay: 5, means: [10, null, 12, 3], requirement: 22 })).toMatchObject({
      day: 7,
      missing: 1,
    })
    expect(heatStage({ startDay: 5, means: [], requirement: 22 })).toMatchObject({ day: null, sum: 0 })
    expect(heatStage({ startDay: 5, means: [10, 12], requirement: 100 }).reason).toBe(
      'the sum is 22 of 100 °C-days',
    )
    // Days after it are not asked about, be it reached on the first or later.
    expect(heatStage({ startDay: 5, means: [null, 30, null, 3], requirement: 22 })).toEqual({
      day: 6,
      sum: 30,
      missing: 1,
      reason: null,
    })
    expect(heatStage({ startDay: 5, means: [30, null, null], requirement: 22 })).toMatchObject({
      day: 5,
      missing: 0,
    })
  })

  test('refuses a requirement that is none', () => {
    for (const requirement of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => heatStage({ startDay: 0, means: [1], requirement })).toThrow(RangeError)
    }
  })

  test('a higher requirement never comes earlier', () => {
    fc.assert(
      fc.property(
        fc.array(mean),
        fc.integer({ min: 1, max: 900 }),
        fc.integer({ min: 0, max: 90 }),
        (means, low, more) => {
          const [early, late] = [low, low + more].map(
            (requirement) => heatStage({ startDay: 0, means, requirement }).day,
          )
          if (late !== null) expect(early).toBeLessThanOrEqual(late!)
        },
      ),
    )
  })

  test('starts on calendar dates, leap year or not', () => {
    expect(stageSumStart.north).toEqual({ month: 3, day: 1 })
    expect(sugarSumStart).toEqual({ north: { month: 4, day: 1 }, south: { month: 10, day: 1 } })
  })
})

describe('projectHeatSum', () => {
  const steady = Array(40).fill(20) as number[]

  test('years alike give one day', () => {
    expect(
      projectHeatSum({ sumToday: 2600, requirement: 2700, futureYears: [steady, steady, steady] }),
    ).toEqual({
      earliest: 5,
      likely: 5,
      latest: 5,
      best: 5,
      worst: 5,
      years: 3,
      filled: 0,
      reason: null,
    })
  })

  test('warm and cool years are best and worst, within the interval of a new year', () => {
    const years = [16, 18, 20, 22, 24].map((each) => Array(90).fill(each) as number[])
    const result = projectHeatSum({ sumToday: 0, requirement: 400, futureYears: years })
    expect(result).toMatchObject({ likely: 20, best: 17, worst: 25, years: 5, reason: null })
    // t(0.95, 4) = 2.1318, s = 3.1623, sqrt(1 + 1/5): 20 +- 7.385 °C a day
    expect(result.earliest).toBe(Math.ceil(400 / 27.385))
    expect(result.latest).toBe(Math.ceil(400 / 12.615))
  })

  test('one year shows no spread, none shows nothing', () => {
    const one = projectHeatSum({ sumToday: 0, requirement: 100, futureYears: [steady] })
    expect(one).toMatchObject({ earliest: null, likely: 5, latest: null, best: 5, worst: 5 })
    expect(one.reason).toMatch(/two are needed/)
    const none = projectHeatSum({ sumToday: 0, requirement: 100, futureYears: [] })
    expect(none).toMatchObject({ earliest: null, likely: null, latest: null, best: null, worst: null })
    expect(none.reason).toMatch(/no earlier year/)
  })

  test('reached already is today', () => {
    expect(projectHeatSum({ sumToday: 100, requirement: 100, futureYears: [] })).toMatchObject({
      earliest: 0,
      likely: 0,
      latest: 0,
      reason: null,
    })
  })

  test('past the end of the years it does not go on', () => {
    const result = projectHeatSum({ sumToday: 0, requirement: 900, futureYears: [steady, steady] })
    expect(result).toMatchObject({ earliest: null, likely: null, latest: null, best: null, worst: null })
    expect(result.reason).toBe('not certain within the 40 days that the earlier years cover')
    const short = projectHeatSum({ sumToday: 0, requirement: 100, futureYears: [steady, [20, 20]] })
    expect(short.likely).toBeNull()
  })

  test('an unknown day takes the mean of the other years, and is counted', () => {
    const years = [
      [10, null, 10],
      [10, 20, 10],
      [10, 10, 10],
    ]
    expect(projectHeatSum({ sumToday: 0, requirement: 35, futureYears: years })).toMatchObject({
      likely: 3,
      filled: 1,
    })
  })

  test("the sums' own error widens both ends", () => {
    const years = [19, 20, 21].map((each) => Array(90).fill(each) as number[])
    const plain = projectHeatSum({ sumToday: 0, requirement: 400, futureYears: years })
    const wide = projectHeatSum({ sumToday: 0, requirement: 400, futureYears: years, modelError: 5 })
    expect(wide.likely).toBe(plain.likely)
    expect(wide.latest! - wide.likely!).toBe(
      Math.ceil(Math.hypot(plain.latest! - plain.likely!, 5 * 1.6448536)),
    )
    expect(wide.earliest).toBeLessThan(plain.earliest!)
  })

  test('refuses what is not finite', () => {
    expect(() => projectHeatSum({ sumToday: Number.NaN, requirement: 1, futureYears: [] })).toThrow(
      RangeError,
    )
  })

  test('in order, and a higher requirement never comes earlier', () => {
    const any = fc.record({
      years: futureYears(2),
      low: fc.integer({ min: 1, max: 700 }),
      more: fc.integer({ min: 0, max: 100 }),
      modelError: fc.integer({ min: 0, max: 8 }),
    })
    fc.assert(
      fc.property(any, ({ years, low, more, modelError }) => {
        const run = (requirement: number) =>
          projectHeatSum({ sumToday: 0, requirement, futureYears: years, modelError })
        const [early, late] = [run(low), run(low + more)]
        for (const end of ['earliest', 'likely', 'latest', 'best', 'worst'] as const) {
          if (late[end] !== null) expect(early[end]).toBeLessThanOrEqual(late[end]!)
        }
        const { earliest, likely, latest } = early
        if (likely !== null) expect(earliest).toBeLessThanOrEqual(likely)
        if (latest !== null) expect(likely).toBeLessThanOrEqual(latest)
        if (latest === null) expect(early.reason).not.toBeNull()
      }),
    )
  })

  test('covers a left-out year of real weather about as often as it says', () => {
    const years = [2012, 2013, 2014, 2015]
    const from = (place: 'Seattle' | 'New York', year: number) =>
      vegaDays(place, `${year}-08-01`, `${year}-12-31`).map(({ min, max }) => (min + max) / 2)
    const hits = (['Seattle', 'New York'] as const).flatMap((place) =>
      years.flatMap((left) =>
        [300, 500, 700].map((requirement) => {
          const futureYears = years.filter((year) => year !== left).map((year) => from(place, year))
          const { earliest, latest } = projectHeatSum({ sumToday: 0, requirement, futureYears })
          const truth = heatStage({ startDay: 1, means: from(place, left), requirement }).day!
          return earliest! <= truth && truth <= latest!
        }),
      ),
    )
    expect(hits.filter(Boolean).length / hits.length).toBeGreaterThanOrEqual(0.85)
  })
})

describe('requirements', () => {
  test('sugar rises with its target', () => {
    for (const sums of Object.values(sugarRequirements)) {
      const row = sugarTargets.map((target) => sums[target]).filter((each) => each !== undefined)
      expect(row).toEqual(row.toSorted((a, b) => a - b))
    }
  })
})
