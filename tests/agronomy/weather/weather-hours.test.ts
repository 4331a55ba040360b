import { describe, expect, test } from 'vitest'
import { daysOfHours, everyHour, longestRun } from '../../../src/agronomy/weather/weather-hours.ts'
import { hoursOf, rowsOf, times } from '../weather-maker.ts'

describe('everyHour', () => {
  test('fills a missing hour with unknowns, never with zeros', () => {
    const rows = rowsOf(times(24, { rain: 0, temperature: 5 })).filter(({ hour }) => hour !== 3)
    const hours = everyHour(rows)
    expect(hours).toHaveLength(24)
    expect(hours[3]).toEqual({
      day: 0,
      hour: 3,
      temperature: null,
      humidity: null,
      rain: null,
      wetness: null,
    })
  })

  test('fills the first and the last day and the days between', () => {
    const [row] = rowsOf([{ temperature: 5 }])
    const hours = everyHour([
      { ...row!, hour: 20 },
      { ...row!, day: 2, hour: 3 },
    ])
    expect(hours).toHaveLength(72)
    expect(daysOfHours(hours)).toEqual([
      { day: 0, first: 0, last: 23 },
      { day: 1, first: 24, last: 47 },
      { day: 2, first: 48, last: 71 },
    ])
  })

  test('an hour that the clock leaves out is not missing, and one that it has twice is two hours', () => {
    const rows = rowsOf(times(24, { temperature: 5 }))
    expect(
      everyHour(
        rows.filter(({ hour }) => hour !== 2),
        { skipped: new Set([2]) },
      ),
    ).toHaveLength(23)
    const twice = [...rows.slice(0, 3), rows[2]!, ...rows.slice(3)]
    expect(everyHour(twice, { repeated: new Set([2]) })).toHaveLength(25)
    expect(() => everyHour(twice)).toThrow('out of order')
  })

  test('a missing hour of a later day bears its own day and hour, and eleven years are taken', () => {
    const rows = rowsOf(times(72, { temperature: 5 })).filter((_, at) => at !== 55)
    expect(everyHour(rows)[55]).toMatchObject({ day: 2, hour: 7, temperature: null })
    const [row] = rows
    const ends = (day: number) => everyHour([row!, { ...row!, day }])
    expect(ends(4100)).toHaveLength(4101 * 24)
    expect(() => ends(4101)).toThrow('eleven years')
  })

  test('refuses what is out of order, endless or not a number', () => {
    const rows = rowsOf(times(2, { temperature: 5 }))
    expect(() => everyHour([rows[1]!, rows[0]!])).toThrow('out of order')
    expect(() => everyHour([rows[0]!, { ...rows[1]!, day: 1e9 }])).toThrow('eleven years')
    expect(() => everyHour([{ ...rows[0]!, rain: Number.NaN }])).toThrow('not a number')
    expect(() => everyHour([{ ...rows[0]!, hour: 24 }])).toThrow('not a number')
    for (const wrong of [{ hour: -1 }, { hour: 1.5 }, { day: 0.5 }, { day: Number.NaN }])
      expect(() => everyHour([{ ...rows[0]!, ...wrong }])).toThrow('not a number')
    for (const key of ['temperature', 'humidity', 'rain', 'wetness'])
      for (const value of [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NaN])
        expect(() => everyHour([{ ...rows[0]!, [key]: value }])).toThrow('not a number')
    expect(everyHour([])).toEqual([])
  })
})

test('longestRun looks only between its ends', () => {
  const hours = hoursOf([
    ...times(3, { temperature: 1 }),
    ...times(2, { temperature: 9 }),
    ...times(19, { temperature: 1 }),
  ])
  const warm = (at: number) => hours[at]!.temperature! > 5
  expect(longestRun(0, 23, warm)).toBe(2)
  expect(longestRun(0, 3, warm)).toBe(1)
  expect(longestRun(5, 23, warm)).toBe(0)
})
