/** Standard pressure of the air at sea level, Pa. */
const PRESSURE = 101_325

/**
 * Saturation pressure of water vapour in Pa, over ice below the triple point, at °C.
 * Source: ASHRAE Handbook Fundamentals, chapter 1, the equations of Hyland & Wexler 1983, coefficients from memory.
 */
function saturationPressure(celsius: number): number {
  const t = celsius + 273.15
  const over =
    celsius <= 0.01
      ? -5674.5359 / t +
        6.3925247 -
        9.677843e-3 * t +
        6.2215701e-7 * t ** 2 +
        2.0747825e-9 * t ** 3 -
        9.484024e-13 * t ** 4 +
        4.1635019 * Math.log(t)
      : -5800.2206 / t +
        1.3914993 -
        4.8640239e-2 * t +
        4.1764768e-5 * t ** 2 -
        1.4452093e-8 * t ** 3 +
        6.5459673 * Math.log(t)
  return Math.exp(over)
}

/** kg of vapour for each kg of dry air at a vapour pressure in Pa. */
const humidityRatio = (vapour: number) => (0.621945 * vapour) / (PRESSURE - vapour)

/** kg of vapour for each kg of dry air at t °C whose wet bulb shows `wet`, over ice below the triple point. */
function ratioAtWetBulb(t: number, wet: number): number {
  const saturated = humidityRatio(saturationPressure(wet))
  return wet > 0.01
    ? ((2501 - 2.326 * wet) * saturated - 1.006 * (t - wet)) / (2501 + 1.86 * t - 4.186 * wet)
    : ((2830 - 0.24 * wet) * saturated - 1.006 * (t - wet)) / (2830 + 1.86 * t - 2.1 * wet)
}

/** Steps of halving: from a span of 100 °C to under a millionth of a degree. */
const STEPS = 28

/**
 * Wet-bulb temperature at sea level, °C, by the psychrometric equation, solved by halving.
 * Source: ASHRAE Handbook Fundamentals, chapter 1, equations of the humidity ratio at a wet bulb, from memory; held
 * against values of the PsychroLib library at 101.325 kPa.
 */
function wetBulb({ temperature, humidity }: { temperature: number; humidity: number }): number {
  const wanted = humidityRatio((saturationPressure(temperature) * humidity) / 100)
  let [low, high] = [temperature - 100, temperature]
  for (let step = 0; step < STEPS; step++) {
    const middle = (low + high) / 2
    if (ratioAtWetBulb(temperature, middle) < wanted) low = middle
    else high = middle
  }
  return high
}

type DeltaTBand = 'under' | 'ideal' | 'marginal' | 'over'

/**
 * Delta T, air temperature less wet bulb, and its band: under 2 drops hang in the air, 2 to 8 is ideal, to 10
 * is marginal, over 10 drops dry on their way.
 * @param air temperature in °C, humidity in %
 * @returns °C and band; null outside 0 to 100 % humidity or -20 to 50 °C, where no vines are sprayed
 * Source: bands, Australian Bureau of Meteorology (quoted); Waikato Regional Council chart 6.2.9 too calls
 * above 8 a high drift hazard.
 */
export function deltaT(air: {
  temperature: number
  humidity: number
}): { value: number; band: DeltaTBand } | { value: null; band: null } {
  const { temperature, humidity } = air
  if (!(temperature >= -20 && temperature <= 50 && humidity > 0 && humidity <= 100))
    return { value: null, band: null }
  const value = Math.max(0, temperature - wetBulb(air))
  return { value, band: value < 2 ? 'under' : value <= 8 ? 'ideal' : value <= 10 ? 'marginal' : 'over' }
}
