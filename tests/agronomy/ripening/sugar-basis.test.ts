import { describe, expect, test } from 'vitest'
import { lastSamplingDays } from '../../../src/agronomy/ripening/sampling-days.ts'
import { chooseBasis } from '../../../src/agronomy/ripening/sugar-basis.ts'

describe('what sugar is set against', () => {
  /** 0.01 °Brix for each unit of heat, which comes unevenly: 30, 15 and 15 a day. */
  const byHeat = [
    { day: 100, brix: 10, heatSum: 1000 },
    { day: 110, brix: 13, heatSum: 1300 },
    { day: 120, brix: 14.5, heatSum: 1450 },
    { day: 130, brix: 16, heatSum: 1600 },
  ]
  const asked: [number, string][] = []
  const dayAt = (sum: number, pace: string) => {
    asked.push([sum, pace])
    return 500
  }

  test('is heat where that foretells the samples better, at the mean pace of the days used', () => {
    const { basis, points, errors, toDay } = chooseBasis(byHeat, dayAt)
    expect(basis).toBe('heat-sum')
    expect(errors.heatSum).toBeCloseTo(0, 9)
    expect(errors.day).toBeGreaterThan(0.1)
    // 600 in 30 days are 20 a day.
    expect(points).toEqual([
      { x: -30, y: 10 },
      { x: -15, y: 13 },
      { x: -7.5, y: 14.5 },
      { x: 0, y: 16 },
    ])
    expect(toDay(5, 'coolest')).toBe(500)
    expect(asked).toEqual([[1700, 'coolest']])
  })

  test.each<[what: string, samples: typeof byHeat, way: typeof dayAt | undefined]>([
    [
      'heat comes evenly, so that neither is better',
      byHeat.map((s, at) => ({ ...s, heatSum: 1000 + at * 100 })),
      dayAt,
    ],
    ['there are three samples', byHeat.slice(1), dayAt],
    [
      'a sample has no sum',
      byHeat.map(({ heatSum, ...s }, at) => (at === 2 ? s : { ...s, heatSum })) as typeof byHeat,
      dayAt,
    ],
    ['a sum does not rise', byHeat.map((s, at) => (at === 2 ? { ...s, heatSum: 1300 } : s)), dayAt],
    ['a sum falls', byHeat.map((s, at) => (at === 3 ? { ...s, heatSum: 1400 } : s)), dayAt],
    ['there is no way back to days', byHeat, undefined],
  ])('is the day where %s', (_, samples, way) => {
    const { basis, points, toDay } = chooseBasis(samples, way)
    expect(basis).toBe('day')
    expect(points.map(({ x }) => x)).toEqual(samples.map(({ day }) => day - 130))
    expect(toDay(5, 'mean')).toBe(135)
  })

  test('is the day where that foretells better, and both errors are told', () => {
    const byDay = byHeat.map((s, at) => ({ ...s, brix: 10 + at }))
    const { basis, errors } = chooseBasis(byDay, dayAt)
    expect(basis).toBe('day')
    expect(errors.day).toBeCloseTo(0, 9)
    expect(errors.heatSum).toBeGreaterThan(0.01)
    expect(chooseBasis(byDay.slice(1), dayAt).errors.heatSum).toBeNull()
  })
})

describe('the sampling days used', () => {
  const at = (...days: number[]) => days.map((day) => ({ day, brix: day / 10 }))
  const used = (...days: number[]) => lastSamplingDays(at(...days)).map(({ day }) => day)

  test('are the last five, however far they lie back, and no sixth over four weeks back', () => {
    expect(used(0, 20, 40, 60, 80, 100)).toEqual([20, 40, 60, 80, 100])
    expect(used(100, 20, 60, 40, 80)).toEqual([20, 40, 60, 80, 100])
    expect(used(0, 30, 31, 32, 33, 34)).toEqual([30, 31, 32, 33, 34])
  })

  test('are all of the last four weeks where those are more', () => {
    expect(used(0, 5, 10, 15, 20, 25, 28)).toEqual([0, 5, 10, 15, 20, 25, 28])
    expect(used(0, 5, 10, 15, 20, 25, 29)).toEqual([5, 10, 15, 20, 25, 29])
  })

  test('average the samples of one day, whose readings then say nothing of their noise', () => {
    const readings = { sd: 0.5, n: 10 }
    expect(
      lastSamplingDays([
        { day: 1, brix: 10, readings, heatSum: 900 },
        { day: 2, brix: 12, readings },
        { day: 2, brix: 13, readings, heatSum: 1000 },
        { day: 3, brix: 14 },
      ]),
    ).toEqual([
      { day: 1, brix: 10, readings, heatSum: 900 },
      { day: 2, brix: 12.5, heatSum: 1000 },
      { day: 3, brix: 14 },
    ])
    expect(Object.keys(lastSamplingDays([{ day: 3, brix: 14 }])[0]!)).toEqual(['day', 'brix'])
    expect(lastSamplingDays([])).toEqual([])
  })
})
