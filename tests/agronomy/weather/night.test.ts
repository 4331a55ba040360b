import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { sunTimes } from '../../../src/agronomy/weather/night.ts'

const dayOf = (date: string) => Date.parse(date) / 86_400_000

/**
 * Sunrise and sunset by Meeus' low-precision sun (mean longitude, equation of centre, obliquity), as the solar
 * calculator of NOAA uses it: another path than the series of the code. Equations from memory.
 */
function almanac(day: number, latitude: number): { sunrise: number; sunset: number } {
  const rad = Math.PI / 180
  const century = (day + 2440587.5 + 0.5 - 2451545) / 36525
  const mean = 280.46646 + 36000.76983 * century
  const anomaly = (357.52911 + 35999.05029 * century) * rad
  const centre =
    (1.914602 - 0.004817 * century) * Math.sin(anomaly) +
    0.019993 * Math.sin(2 * anomaly) +
    0.000289 * Math.sin(3 * anomaly)
  const node = (125.04 - 1934.136 * century) * rad
  const longitude = (mean + centre - 0.00569 - 0.00478 * Math.sin(node)) * rad
  const obliquity = (23.439291 - 0.0130042 * century + 0.00256 * Math.cos(node)) * rad
  const declination = Math.asin(Math.sin(obliquity) * Math.sin(longitude))
  const ascension = Math.atan2(Math.cos(obliquity) * Math.sin(longitude), Math.cos(longitude)) / rad
  const ahead = ((((mean - 0.0057183 - ascension) % 360) + 540) % 360) - 180
  const cosine =
    (Math.sin(-0.833 * rad) - Math.sin(latitude * rad) * Math.sin(declination)) /
    (Math.cos(latitude * rad) * Math.cos(declination))
  const half = Math.acos(Math.max(-1, Math.min(1, cosine))) / rad / 15
  const noon = 12 - ahead / 15
  return { sunrise: noon - half, sunset: noon + half }
}

describe('sunTimes', () => {
  test('within four minutes of the sun by another path, between 55° south and north', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: dayOf('2000-01-01'), max: dayOf('2040-01-01') }),
        fc.double({ min: -55, max: 55, noNaN: true }),
        (day, latitude) => {
          const [ours, theirs] = [sunTimes({ day, latitude }), almanac(day, latitude)]
          expect(Math.abs(ours.sunrise - theirs.sunrise) * 60).toBeLessThan(4)
          expect(Math.abs(ours.sunset - theirs.sunset) * 60).toBeLessThan(4)
        },
      ),
    )
  })
  test('at an equinox the day is a little over twelve hours everywhere', () => {
    for (const latitude of [-50, -30, 0, 30, 50]) {
      const { sunrise, sunset } = sunTimes({ day: dayOf('2026-03-20'), latitude })
      expect(sunset - sunrise).toBeGreaterThan(12)
      expect(sunset - sunrise).toBeLessThan(12.3)
    }
  })
  test('beyond the polar circle the sun neither sets in June nor rises in December', () => {
    const june = sunTimes({ day: dayOf('2026-06-21'), latitude: 75 })
    expect(june.sunset - june.sunrise).toBeCloseTo(24, 10)
    const december = sunTimes({ day: dayOf('2026-12-21'), latitude: 75 })
    expect(december.sunset - december.sunrise).toBe(0)
  })
  test('the clock shifts both', () => {
    const day = dayOf('2026-06-21')
    const [plain, summer] = [sunTimes({ day, latitude: 50 }), sunTimes({ day, latitude: 50, noonShift: 1.4 })]
    expect(summer.sunrise - plain.sunrise).toBeCloseTo(1.4, 10)
    expect(() => sunTimes({ day, latitude: 91 })).toThrow(RangeError)
  })
})
