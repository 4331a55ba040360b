import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { deltaT, wetBulb } from '../../../src/agronomy/spraying/delta-t.ts'
import { sulphurWeather, WIND_LIMITS, windBand } from '../../../src/agronomy/spraying/spray-weather.ts'

describe('wet bulb', () => {
  test('has no value outside the range of the formula', () => {
    expect(wetBulb({ temperature: 20, humidity: 4.9 })).toBeNull()
    expect(wetBulb({ temperature: 20, humidity: 5 })).not.toBeNull()
    expect(wetBulb({ temperature: 20, humidity: 99 })).not.toBeNull()
    expect(wetBulb({ temperature: 20, humidity: 99.1 })).toBeNull()
    expect(wetBulb({ temperature: -20.1, humidity: 50 })).toBeNull()
    expect(wetBulb({ temperature: 50.1, humidity: 50 })).toBeNull()
    expect(wetBulb({ temperature: Number.NaN, humidity: 50 })).toBeNull()
    expect(wetBulb({ temperature: 20, humidity: Number.NaN })).toBeNull()
  })
  test('has no value in air so cold and dry that the formula rises above the air temperature', () => {
    expect(wetBulb({ temperature: -20, humidity: 5 })).toBeNull()
    expect(wetBulb({ temperature: 50, humidity: 99 })).toBe(50)
  })
  test('is the air temperature in saturated air', () => {
    expect(wetBulb({ temperature: 12.3, humidity: 100 })).toBe(12.3)
  })
  test('rises with the humidity in spraying weather', () => {
    const humidity = fc.double({ min: 20, max: 98, noNaN: true })
    fc.assert(
      fc.property(fc.double({ min: 5, max: 40, noNaN: true }), humidity, (temperature, wet) => {
        expect(wetBulb({ temperature, humidity: wet + 1 })!).toBeGreaterThan(
          wetBulb({ temperature, humidity: wet })!,
        )
      }),
    )
  })
})

describe('Delta T', () => {
  /** The humidity at 30 °C that gives a Delta T, by halving. */
  const humidityFor = (wanted: number) => {
    let low = 5
    let high = 99
    for (let step = 0; step < 60; step++) {
      const middle = (low + high) / 2
      if (30 - wetBulb({ temperature: 30, humidity: middle })! > wanted) low = middle
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
  test('is unknown with a reason where the formula does not hold', () => {
    expect(deltaT({ temperature: 20, humidity: 2 })).toMatchObject({ value: null, band: null })
    expect(deltaT({ temperature: 20, humidity: 2 }).reason).toContain('5-99 %')
  })
  test('is never negative', () => {
    const temperature = fc.double({ min: -20, max: 50, noNaN: true })
    fc.assert(
      fc.property(temperature, fc.double({ min: 5, max: 99, noNaN: true }), (dry, humidity) => {
        const { value } = deltaT({ temperature: dry, humidity })
        if (value === null) expect(dry).toBeLessThan(-5)
        else expect(value).toBeGreaterThanOrEqual(0)
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

test('the wind limits are in m/s and name their sources', () => {
  expect(WIND_LIMITS.map(({ to }) => Math.round(to * 3.6 * 10) / 10)).toEqual([16.1, 18, 19, 20])
  for (const limit of WIND_LIMITS) expect(limit.source).not.toBe('')
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
