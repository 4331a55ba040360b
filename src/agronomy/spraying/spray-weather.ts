import { exceeds } from '../statistics/exceeds.ts'
import { requireNotNegative } from '../statistics/require-number.ts'

type WindBand = 'still' | 'low-hazard' | 'between' | 'strong'

/**
 * Drift hazard by wind: still air (below 1 m/s) and strong wind (above 6 m/s) are both high, a steady 1 to
 * 3 m/s blowing away from what must not be hit is low. Between 3 and 6 m/s the source gives neither.
 * @param wind m/s
 * @throws RangeError where the wind is negative
 * Source: Waikato Regional Council plan, chart 6.2.9.
 */
export function windBand(wind: number): WindBand {
  requireNotNegative({ wind })
  return wind < 1 ? 'still' : wind <= 3 ? 'low-hazard' : wind <= 6 ? 'between' : 'strong'
}

type SulphurBand = 'weak-vapour' | 'fit' | 'warn' | 'stop'

interface SulphurWeather {
  band: SulphurBand
  /** Sources whose own limit is passed at this temperature and humidity. */
  against: string[]
}

/** 85 °F and 90 °F in °C, exact. */
const F85 = (85 - 32) / 1.8
const F90 = (90 - 32) / 1.8

/**
 * Sulphur and temperature. Below 15 °C little of it vapourises, though good coverage still works; from 30 °C the
 * leaves are at risk (warn), above 32 °C leave it (stop). Sources draw the line at different heats; each whose
 * limit is passed is named.
 * @param weather temperature in °C, the highest forecast within the day after; humidity in % where known
 * @throws RangeError where the temperature is not finite or the humidity outside 0 to 100
 * Sources: AWRI eBulletin, 13 October 2021 (15 °C; above 32 °C with humidity above 70 %); University of
 * Minnesota Extension 2021 (none above 85 °F); UC IPM Pest Notes 7494 (none near or over 90 °F). The warning
 * from 30 °C is our own, between them.
 */
export function sulphurWeather(weather: { temperature: number; humidity?: number }): SulphurWeather {
  const { temperature, humidity } = weather
  if (!Number.isFinite(temperature)) throw new RangeError(`requires a temperature, got ${temperature}`)
  if (humidity !== undefined && !(humidity >= 0 && humidity <= 100))
    throw new RangeError(`requires humidity from 0 to 100 %, got ${humidity}`)
  const against: string[] = []
  if (exceeds(temperature, F85))
    against.push('University of Minnesota Extension 2021: none above 29.4 °C (85 °F)')
  if (temperature > 32 && (humidity === undefined || humidity > 70))
    against.push('AWRI 2021: burn risk above 32 °C with humidity above 70 %')
  if (!exceeds(F90, temperature)) against.push('UC IPM Pest Notes 7494: none near or over 32.2 °C (90 °F)')
  const band =
    temperature < 15 ? 'weak-vapour' : temperature < 30 ? 'fit' : temperature <= 32 ? 'warn' : 'stop'
  return { band, against }
}
