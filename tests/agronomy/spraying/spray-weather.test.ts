import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { deltaT } from '../../../src/agronomy/spraying/delta-t.ts'
import { sulphurWeather, windBand } from '../../../src/agronomy/spraying/spray-weather.ts'

describe('Delta T', () => {
  const of = (temperature: number, humidity: number) => deltaT({ temperature, humidity }).value
  /** The humidity at 30 °C that gives a Delta T, by halving. */
  const humidityFor = (wanted: number) => {
    let [low, high] = [1, 100]
    for (let step = 0; step < 60; step++) {
      const middle = (low + high) / 2
      if (of(30, middle)! > wanted) low = middle
      else high = middle
    }
    return low
  }
  const bandAt = (wanted: number) => deltaT({ temperature: 30, humidity: humidityFor(wanted) }).band

  test('changes its band at 2, 8 and 10', () => {
    expect([1.99, 2.01].map(bandAt)).toEqual(['under', 'ideal'])
    expect([7.99, 8.01].map(bandAt)).toEqual(['ideal', 'marginal'])
    expect([9.99, 10.01].map(bandAt)).toEqual(['marginal', 'over'])
  })
  test('is none in saturated air, in frost too', () => {
    for (const temperature of [-20, -0.5, 0, 12.3, 50]) expect(of(temperature, 100)).toBeCloseTo(0, 5)
  })
  test('is unknown for air that is none', () => {
    for (const [temperature, humidity] of [
      [20, 0],
      [20, -1],
      [20, 100.1],
      [-20.1, 50],
      [50.1, 50],
      [Number.NaN, 50],
      [20, Number.NaN],
    ] as const)
      expect(deltaT({ temperature, humidity })).toEqual({ value: null, band: null })
  })
  test('is never negative, and falls as the air grows more humid', () => {
    const temperature = fc.double({ min: -20, max: 50, noNaN: true })
    fc.assert(
      fc.property(temperature, fc.double({ min: 1, max: 99, noNaN: true }), (dry, humidity) => {
        expect(of(dry, humidity)).toBeGreaterThanOrEqual(0)
        expect(of(dry, humidity + 1)).toBeLessThan(of(dry, humidity)!)
      }),
    )
  })
})

test.each([
  [0, 'still'],
  [0.99, 'still'],
  [1, 'low-hazard'],
  [3, 'low-hazard'],
  [3.01, 'between'],
  [6, 'between'],
  [6.01, 'strong'],
])('wind of %s m/s is %s', (wind, band) => {
  expect(windBand(wind)).toBe(band)
})

test('a wind below nothing is refused', () => {
  expect(() => windBand(-0.1)).toThrow(RangeError)
  expect(() => windBand(Number.NaN)).toThrow(RangeError)
})

test.each([
  [14.9, 'weak-vapour'],
  [15, 'fit'],
  [29.9, 'fit'],
  [30, 'warn'],
  [32, 'warn'],
  [32.1, 'stop'],
])('sulphur at %s °C: %s', (temperature, band) => {
  expect(sulphurWeather({ temperature }).band).toBe(band)
})

describe('sources against sulphur', () => {
  const names = (temperature: number, humidity?: number) =>
    sulphurWeather({ temperature, humidity }).against.map((text) => text.split(' ')[0])
  test('each speaks above its own limit only', () => {
    expect(names(29.44)).toEqual([])
    expect(names(29.45)).toEqual(['University'])
    expect(names(85 * (5 / 9) - 32 * (5 / 9))).toEqual([])
    expect(names(32, 90)).toEqual(['University'])
    expect(names(32.1, 90)).toEqual(['University', 'AWRI'])
    expect(names(32.1, 70)).toEqual(['University'])
    expect(names(32.1, 70.1)).toEqual(['University', 'AWRI'])
    expect(names(32.23, 40)).toEqual(['University', 'UC'])
    expect(names(90 * (5 / 9) - 32 * (5 / 9), 40)).toEqual(['University', 'UC'])
  })
  test('humidity that is not known is not taken for dry', () => {
    expect(names(33)).toContain('AWRI')
  })
  test('refuses no temperature and humidity above 100', () => {
    expect(() => sulphurWeather({ temperature: Number.NaN })).toThrow(RangeError)
    expect(() => sulphurWeather({ temperature: 20, humidity: 101 })).toThrow(RangeError)
  })
})
