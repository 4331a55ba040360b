/** °C by which the fit may lie above the air temperature near saturation. */
const FIT_ERROR = 0.05

/**
 * Wet-bulb temperature from air temperature and relative humidity, at sea level.
 * @param air temperature in °C, humidity in %
 * @returns °C; null outside the formula's range, which is 5-99 % and -20 to 50 °C without air that is both cold
 *   and dry (known here only by a wet bulb above the air temperature, which cannot be). At 100 % the wet bulb is
 *   the air temperature by definition.
 * Source: Stull 2011, J. Appl. Meteorol. Climatol. 50:2267-2269, from memory.
 */
export function wetBulb(air: { temperature: number; humidity: number }): number | null {
  const { temperature: t, humidity: rh } = air
  if (!(t >= -20 && t <= 50)) return null
  if (rh === 100) return t
  if (!(rh >= 5 && rh <= 99)) return null
  const wet =
    t * Math.atan(0.151977 * Math.sqrt(rh + 8.313659)) +
    Math.atan(t + rh) -
    Math.atan(rh - 1.676331) +
    0.00391838 * rh ** 1.5 * Math.atan(0.023101 * rh) -
    4.686035
  return wet > t + FIT_ERROR ? null : Math.min(wet, t)
}

type DeltaTBand = 'under' | 'ideal' | 'marginal' | 'over'

/**
 * Delta T, air temperature less wet bulb, and its band: under 2 drops hang in the air, 2 to 8 is ideal, to 10
 * is marginal, over 10 drops dry on their way.
 * @param air temperature in °C, humidity in %
 * @returns °C and band; null with the reason where the wet bulb can't be had
 * Source: bands, Australian Bureau of Meteorology (quoted); Waikato Regional Council chart 6.2.9 too calls
 * above 8 a high drift hazard.
 */
export function deltaT(air: {
  temperature: number
  humidity: number
}): { value: number; band: DeltaTBand; reason: null } | { value: null; band: null; reason: string } {
  const wet = wetBulb(air)
  if (wet === null)
    return {
      value: null,
      band: null,
      reason: 'outside 5-99 % humidity or -20 to 50 °C, or too cold and dry for the formula',
    }
  const value = air.temperature - wet
  return {
    value,
    band: value < 2 ? 'under' : value <= 8 ? 'ideal' : value <= 10 ? 'marginal' : 'over',
    reason: null,
  }
}
