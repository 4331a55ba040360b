import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { SugarSample } from '../../../src/agronomy/ripening/sampling-days.ts'
import type { HeatPace } from '../../../src/agronomy/ripening/sugar-basis.ts'
import { sugarTrend } from '../../../src/agronomy/ripening/sugar-trend.ts'
import { gaussian, seeded } from '../seeded.ts'

function weekly(values: readonly number[]): SugarSample[] {
  return values.map((brix, week) => ({ day: 100 + 7 * week, brix }))
}

describe('what it refuses, and why', () => {
  test('two sampling days, however many samples', () => {
    const trend = sugarTrend([...weekly([14, 16]), { day: 107, brix: 16.2 }])(20)
    expect(trend).toMatchObject({ earliest: null, likely: null, latest: null, used: 2 })
    expect(trend.reason).toMatch(/three days/)
    expect(sugarTrend([])(20).reason).toMatch(/three days/)
  })
  test('sugar that falls or stands', () => {
    expect(sugarTrend(weekly([18, 17.6, 17.1]))(20).reason).toMatch(/has not risen/)
    expect(sugarTrend(weekly([18, 18, 18, 18]))(20).reason).toMatch(/has not risen/)
  })
  test('a rise within the noise', () => {
    expect(sugarTrend(weekly([18, 18.7, 17.8, 18.3]))(20).reason).toMatch(/within the noise/)
  })
  test('a target that is too far off', () => {
    const trend = sugarTrend(weekly([8, 10, 12]))(30)
    expect(trend.likely).toBeNull()
    expect(trend.chance).toBeLessThan(0.15)
    expect(trend.tooFar).toBe(true)
    expect(trend.reason).toMatch(/more than 35 days off/)
  })
  test('numbers that are none', () => {
    expect(() => sugarTrend(weekly([14, Number.NaN, 16]))(20)).toThrow(RangeError)
    expect(() => sugarTrend(weekly([14, 15, 16]))(Number.NaN)).toThrow(RangeError)
    expect(() => sugarTrend(weekly([14, 15, 16]), { level: 1 })(20)).toThrow(RangeError)
    expect(() => sugarTrend(weekly([14, 15, 16]), { horizon: 0 })(20)).toThrow(RangeError)
    // Refused at once and by name, however few the samples are.
    const two = weekly([14, 15])
    expect(() => sugarTrend([{ day: Number.NaN, brix: 14 }])).toThrow('finite days')
    expect(() => sugarTrend([{ day: 1, brix: Number.NaN }])).toThrow('finite days')
    for (const wrong of [{ level: 0 }, { level: 1 }, { horizon: 0 }, { shiftError: -1 }, { shiftError: 45 }])
      expect(() => sugarTrend(two, wrong)).toThrow('a level, a horizon and an error')
    expect(() => sugarTrend(two)(Number.NaN)).toThrow('a finite target')
  })
  test('says all of nothing where samples are too few', () => {
    expect(sugarTrend(weekly([14, 15]))(20)).toEqual({
      earliest: null,
      likely: null,
      latest: null,
      reason: 'not enough to tell: samples from three days are needed',
      basis: 'day',
      errors: { day: null, heatSum: null },
      used: 2,
      perDay: null,
      chance: null,
      openEnded: false,
      tooFar: false,
    })
  })
})

describe('what it answers', () => {
  const samples = weekly([12, 14, 16, 18])
  test('a straight rise of 2 a week: one week on, in order, with the rate', () => {
    const trend = sugarTrend(samples)(20)
    expect(trend.likely!).toBeGreaterThan(126)
    expect(trend.likely!).toBeLessThan(131)
    expect(trend.earliest!).toBeLessThan(trend.likely!)
    expect(trend.likely!).toBeLessThan(trend.latest!)
    expect(trend.perDay!).toBeCloseTo(2 / 7, 1)
    expect(trend).toMatchObject({ basis: 'day', used: 4, reason: null })
  })
  test('only the last five sampling days count, in any order', () => {
    const late = weekly([9, 9, 9, 12, 14, 15.8, 17.4, 18.5])
    expect(sugarTrend(late)(20)).toEqual(sugarTrend([...late.slice(-5)].reverse())(20))
    expect(sugarTrend(late)(20).used).toBe(5)
  })
  test('all sampling days of the last four weeks count where they are more than five', () => {
    const twice = [0, 3, 7, 10, 14, 17, 21, 24, 28, 31].map((day) => ({ day, brix: 12 + 0.2 * day }))
    expect(sugarTrend(twice)(20).used).toBe(9)
  })
  test('readings that lie close together narrow the interval, and wide ones widen it', () => {
    const rough = weekly([12, 14.5, 15.6, 18])
    const width = (sd: number): number => {
      const trend = sugarTrend(rough.map((s) => ({ ...s, readings: { sd, n: 5 } })))(20)
      return trend.latest! - trend.earliest!
    }
    const plain = sugarTrend(rough)(20)
    expect(width(0.3)).toBeLessThan(plain.latest! - plain.earliest!)
    expect(width(3)).toBeGreaterThan(plain.latest! - plain.earliest!)
    const two = rough.map((s) => ({ ...s, readings: { sd: 3, n: 2 } }))
    expect(sugarTrend(two)(20)).toEqual(plain)
  })
  test('an unsure shift of all samples widens the interval about the same day', () => {
    const width = (shiftError: number): number => {
      const trend = sugarTrend(samples, { shiftError })(20)
      return trend.latest! - trend.earliest!
    }
    expect(sugarTrend(samples, { shiftError: 0 })(20)).toEqual(sugarTrend(samples)(20))
    expect(width(0.3)).toBeGreaterThan(width(0))
    expect(width(0.9)).toBeGreaterThan(width(0.3))
    const moved = sugarTrend(samples, { shiftError: 0.3 })(20).likely! - sugarTrend(samples)(20).likely!
    expect(Math.abs(moved)).toBeLessThan(0.5)
    expect(() => sugarTrend(samples, { shiftError: -1 })).toThrow(RangeError)
  })
  test('samples of one day are averaged', () => {
    const split = [...samples.slice(0, 3), { day: 121, brix: 17.5 }, { day: 121, brix: 18.5 }]
    expect(sugarTrend(split)(20)).toEqual(sugarTrend(samples)(20))
  })
  test('where more than a twentieth lies beyond the horizon, the days are for the case that it is reached, and open', () => {
    const trend = sugarTrend(weekly([13, 13.9, 14.6, 15.1, 15.6]))(17)
    expect(trend.openEnded).toBe(true)
    expect(trend.chance!).toBeLessThan(0.95)
    expect(trend.latest!).toBeLessThan(128 + 35)
    expect(trend.latest!).toBeGreaterThan(128 + 15)
    expect(sugarTrend(samples)(20).openEnded).toBe(false)
  })
  test('no day lies beyond the horizon', () => {
    const samples = [0, 1, 2, 3, 4].map((week) => ({ day: 7 * week, brix: 9.77886 + 7 * week * 0.285647 }))
    for (const target of [21.8214, 21.9214, 22.2374]) {
      const trend = sugarTrend(samples)(target)
      expect(trend.latest!).toBeLessThanOrEqual(28 + 35)
    }
  })
  test('a target already passed gives a day among the samples', () => {
    const trend = sugarTrend(samples)(15)
    expect(trend.likely!).toBeGreaterThan(107)
    expect(trend.likely!).toBeLessThan(114)
  })
  test('slowing puts the day later than the straight line would', () => {
    const line = 100 + 7 * 4 + (20 - 18.4) / 0.1614
    expect(sugarTrend(weekly([13, 15.4, 17, 18, 18.4]))(20).likely!).toBeGreaterThan(line)
  })
})

describe('by heat sum', () => {
  const heat = [0, 60, 220, 260, 420]
  const samples = heat.map((heatSum, week) => ({ day: 100 + 7 * week, brix: 12 + heatSum / 70, heatSum }))
  const dayAtHeatSum = (sum: number): number => 128 + (sum - 420) / 15
  const unsure = (sum: number, pace: HeatPace): number =>
    128 + (sum - 420) / (pace === 'warmest' ? 18 : pace === 'coolest' ? 12 : 15)
  test('chosen where it foretells the samples better', () => {
    const trend = sugarTrend(samples, { dayAtHeatSum })(20)
    expect(trend.basis).toBe('heat-sum')
    expect(trend.errors.heatSum!).toBeLessThan(trend.errors.day!)
    // 8 °Brix x 70 °C-days on a straight line is 560: day 137.3; slowing is allowed for.
    expect(trend.likely!).toBeGreaterThan(135)
    expect(trend.likely!).toBeLessThan(142)
  })
  test('left aside without a map to days, with a gap, from three samples, or where days do better', () => {
    expect(sugarTrend(samples)(20).basis).toBe('day')
    const gap = samples.map((s, i) => (i === 2 ? { day: s.day, brix: s.brix } : s))
    expect(sugarTrend(gap, { dayAtHeatSum })(20).basis).toBe('day')
    expect(sugarTrend(samples.slice(0, 3), { dayAtHeatSum })(16).basis).toBe('day')
    const steady = samples.map((s, week) => ({ ...s, brix: 12 + 1.5 * week }))
    expect(sugarTrend(steady, { dayAtHeatSum })(20).basis).toBe('day')
  })
  test('heat to come that differed between past seasons widens the interval, and leaves the likely day', () => {
    const sure = sugarTrend(samples, { dayAtHeatSum })(20)
    const wide = sugarTrend(samples, { dayAtHeatSum: unsure })(20)
    expect(wide.earliest!).toBeLessThan(sure.earliest!)
    expect(wide.latest!).toBeGreaterThan(sure.latest!)
    expect(wide.likely).toBe(sure.likely)
  })
  test('heat that is not foreseen leaves the date open and says so', () => {
    const trend = sugarTrend(samples, { dayAtHeatSum: (sum) => (sum > 600 ? null : dayAtHeatSum(sum)) })(20)
    expect(trend.latest).toBeNull()
    expect(trend.earliest).not.toBeNull()
    expect(trend.reason).toMatch(/not foreseen/)
  })
  test.each(['warmest', 'mean', 'coolest'] as const)('says so where only the %s is not foreseen', (gone) => {
    const trend = sugarTrend(samples, {
      dayAtHeatSum: (sum, pace) => (pace === gone ? null : dayAtHeatSum(sum)),
    })(20)
    expect([trend.earliest, trend.likely, trend.latest].filter((day) => day === null)).toHaveLength(1)
    expect(trend.reason).toBe('the heat to come is not foreseen that far')
  })
})

describe('properties', () => {
  const ripening = fc.record({
    seed: fc.integer({ min: 1, max: 1e9 }),
    start: fc.double({ min: 8, max: 17, noNaN: true }),
    rate: fc.double({ min: 0.02, max: 0.5, noNaN: true }),
    noise: fc.double({ min: 0, max: 1, noNaN: true }),
    count: fc.integer({ min: 3, max: 7 }),
    target: fc.double({ min: 15, max: 26, noNaN: true }),
  })
  const series = (r: {
    seed: number
    start: number
    rate: number
    noise: number
    count: number
  }): SugarSample[] => {
    const random = seeded(r.seed)
    return [...Array(r.count).keys()].map((week) => ({
      day: 7 * week,
      brix: r.start + 7 * week * r.rate + r.noise * gaussian(random),
    }))
  }

  test('dates are in order, or the reason says why there is none', () => {
    fc.assert(
      fc.property(ripening, (r) => {
        const { earliest, likely, latest, reason } = sugarTrend(series(r))(r.target)
        if (earliest === null || likely === null || latest === null) return reason !== null
        return earliest <= likely && likely <= latest && Number.isFinite(latest) && reason === null
      }),
      { numRuns: 150 },
    )
  })
  test('a higher target never comes earlier, and is never likelier', () => {
    fc.assert(
      fc.property(ripening, fc.double({ min: 0.01, max: 4, noNaN: true }), (r, more) => {
        const lower = sugarTrend(series(r))(r.target)
        const higher = sugarTrend(series(r))(r.target + more)
        if (lower.chance !== null && higher.chance! > lower.chance + 1e-9) return false
        if (higher.likely === null) return true
        const pairs = [
          [lower.earliest!, higher.earliest!],
          [lower.likely!, higher.likely],
          [lower.latest!, higher.latest!],
        ] as const
        return pairs.every(([before, after]) => after >= before - 1e-6)
      }),
      { numRuns: 300 },
    )
  })
  test('a wider level never narrows the interval', () => {
    fc.assert(
      fc.property(ripening, (r) => {
        const wide = sugarTrend(series(r), { level: 0.95 })(r.target)
        const narrow = sugarTrend(series(r), { level: 0.8 })(r.target)
        if (wide.earliest === null || narrow.earliest === null) return true
        return wide.earliest <= narrow.earliest + 1e-6 && wide.latest! >= narrow.latest! - 1e-6
      }),
      { numRuns: 100 },
    )
  })
  test('days may be counted from any day', () => {
    const samples = weekly([12.3, 14.1, 16.4, 17.9])
    const moved = samples.map((s) => ({ ...s, day: s.day + 20_000 }))
    expect(sugarTrend(moved)(20).latest!).toBeCloseTo(sugarTrend(samples)(20).latest! + 20_000, 5)
  })
})
