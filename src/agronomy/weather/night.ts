const RADIANS = Math.PI / 180
/** Altitude of the sun's centre at sunrise and sunset, degrees: refraction and half its width. */
const HORIZON = -0.833

/**
 * Sunrise and sunset of a day in hours of the local clock, -12 to 36. Where the sun does not set, they are at midnight
 * before and after; where it does not rise, both at noon. Accurate to a few minutes, enough for hourly weather.
 * Declination and equation of time by the Fourier series of Spencer 1971, Search 2:172 (from memory; the tests check
 * it against the equinox and the tropics).
 *
 * @param options days since 1970-01-01; latitude in degrees; `noonShift`, hours by which the clock is ahead of
 *   mean solar time: hours from UTC less longitude / 15
 */
export function sunTimes(options: { day: number; latitude: number; noonShift?: number }): {
  sunrise: number
  sunset: number
} {
  const { day, latitude, noonShift = 0 } = options
  if (!(Math.abs(latitude) <= 90)) throw new RangeError('sunTimes requires a latitude from -90 to 90')
  const turn = (2 * Math.PI * (((day % 365.2425) + 365.2425) % 365.2425)) / 365.2425
  const declination =
    0.006918 -
    0.399912 * Math.cos(turn) +
    0.070257 * Math.sin(turn) -
    0.006758 * Math.cos(2 * turn) +
    0.000907 * Math.sin(2 * turn) -
    0.002697 * Math.cos(3 * turn) +
    0.00148 * Math.sin(3 * turn)
  const minutesAhead =
    229.18 *
    (0.000075 +
      0.001868 * Math.cos(turn) -
      0.032077 * Math.sin(turn) -
      0.014615 * Math.cos(2 * turn) -
      0.04089 * Math.sin(2 * turn))
  const noon = 12 + noonShift - minutesAhead / 60
  const slant = latitude * RADIANS
  const cosine =
    (Math.sin(HORIZON * RADIANS) - Math.sin(slant) * Math.sin(declination)) /
    (Math.cos(slant) * Math.cos(declination))
  const half = Math.acos(Math.max(-1, Math.min(1, cosine))) / RADIANS / 15
  return { sunrise: noon - half, sunset: noon + half }
}
