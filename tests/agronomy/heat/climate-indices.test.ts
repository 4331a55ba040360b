import { describe, expect, test } from 'vitest'
import { coolNightClass, coolNightIndex, coolNightMonth } from '../../../src/agronomy/heat/cool-night.ts'
import {
  growingSeasonGroup,
  growingSeasonTemperature,
} from '../../../src/agronomy/heat/growing-season-temperature.ts'
import { huglinClass, huglinIndex, huglinSeason } from '../../../src/agronomy/heat/huglin.ts'
import { hemisphereOf } from '../../../src/agronomy/heat/season-window.ts'
import { winklerIndex, winklerRegion, winklerSeason } from '../../../src/agronomy/heat/winkler.ts'
import { vegaDays } from '../../published/vega-weather.ts'

describe('season windows', () => {
  test('hemisphere by the sign of the latitude', () => {
    expect([52.1, 0, -41.5].map(hemisphereOf)).toEqual(['north', 'north', 'south'])
    expect(() => hemisphereOf(91)).toThrow(RangeError)
    expect(() => hemisphereOf(Number.NaN)).toThrow(RangeError)
  })

  test('run over the new year in the south', () => {
    expect(winklerSeason.south).toEqual({ from: { month: 10, day: 1 }, to: { month: 4, day: 30 } })
    expect(huglinSeason.south).toEqual({ from: { month: 10, day: 1 }, to: { month: 3, day: 31 } })
    expect(winklerSeason.north).toEqual({ from: { month: 4, day: 1 }, to: { month: 10, day: 31 } })
    expect(huglinSeason.north).toEqual({ from: { month: 4, day: 1 }, to: { month: 9, day: 30 } })
    expect(coolNightMonth).toEqual({ north: 9, south: 3 })
  })
})

describe('Winkler', () => {
  test('one season may fall in two regions by two methods', () => {
    const days = vegaDays('New York', '2014-04-01', '2014-10-31')
    expect(winklerRegion(winklerIndex(days)!)).toBe('IV')
    expect(winklerRegion(1927.8)).toBe('III')
  })

  test('regions have no gaps, and 840 °C-days (1512 °F-days) is too cool by the table in °C', () => {
    expect(winklerRegion(1667.4)).toBe('III')
    expect(winklerRegion(840)).toBe('too cool')
    expect(winklerRegion(0)).toBe('too cool')
    expect(() => winklerRegion(Number.NaN)).toThrow(RangeError)
  })

  test('unknown days add nothing', () => {
    expect(winklerIndex([{ min: 10, max: 20 }, null])).toBe(5)
  })
})

describe('Huglin', () => {
  const days = Array.from({ length: 183 }, () => ({ min: 10, max: 22 }))

  test('beyond 50° there is no index, only a labelled extension', () => {
    const north = huglinIndex({ days, latitude: 52.1 })
    expect(north).toMatchObject({ value: null, coefficient: null })
    expect(north.extension).toBeCloseTo(1647 * 1.06, 9)
    expect(north.reason).toMatch(/not defined beyond 50°/)
    expect(huglinIndex({ days, latitude: 50 }).extension).toBeNull()
  })

  test('the step table is not the linear alternative, which gives 1.042 at 47°', () => {
    expect(huglinIndex({ days, latitude: 47 }).coefficient).toBe(1.05)
    expect(huglinIndex({ days, latitude: -47 }).coefficient).toBe(1.05)
    expect(() => huglinIndex({ days, latitude: 95 })).toThrow(RangeError)
  })

  test('the combined daily term is clamped, not each half', () => {
    const day = (min: number, max: number) => huglinIndex({ days: [{ min, max }], latitude: 0 }).value
    expect(day(0, 14)).toBe(0.5) // mean 7 is 3 below, maximum 4 above
    expect(day(-2, 8)).toBe(0)
    expect(() => day(9, 8)).toThrow(RangeError)
  })

  test('without the clamp one cold day is lost (Seattle 2014: 1769.95 instead of 1770.10)', () => {
    const season = vegaDays('Seattle', '2014-04-01', '2014-09-30')
    const unclamped = season.reduce((sum, { min, max }) => sum + ((min + max) / 2 + max) / 2 - 10, 0)
    expect(unclamped).toBeCloseTo(1769.95, 6)
    expect(huglinIndex({ days: season, latitude: 40 }).value).toBeCloseTo(1770.1, 6)
  })

  test('says when nothing is known', () => {
    expect(huglinIndex({ days: [null], latitude: 47 })).toMatchObject({
      value: null,
      extension: null,
    })
    expect(huglinIndex({ days: [], latitude: 47 }).reason).toMatch(/no day/)
  })

  test('class bounds belong to the lower class', () => {
    expect(huglinClass(1800).class).toBe('cool')
    expect(huglinClass(1800.01).class).toBe('temperate')
    expect(() => huglinClass(Number.NaN)).toThrow(RangeError)
  })
})

describe('means', () => {
  test('cool nights', () => {
    expect(coolNightIndex([10, null, 13])).toBe(11.5)
    expect(coolNightIndex([null])).toBeNull()
    expect(coolNightClass(11.5).class).toBe('very cool nights')
    expect(() => coolNightClass(Number.NaN)).toThrow(RangeError)
  })

  test('growing season', () => {
    expect(growingSeasonTemperature([{ min: 8, max: 20 }, null])).toBe(14)
    expect(growingSeasonTemperature([])).toBeNull()
    expect(growingSeasonGroup(14)).toBe('cool')
    expect(growingSeasonGroup(12)).toBeNull()
    expect(() => growingSeasonGroup(Number.NaN)).toThrow(RangeError)
  })
})
