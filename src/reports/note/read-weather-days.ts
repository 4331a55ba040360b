import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { type Fault, readSaidDate } from '../../records/said-date.ts'
import type { When } from './read-value.ts'

type WeatherDaysResult = { entries: PlainEntry[]; fault?: undefined } | { entries?: undefined; fault: Fault }

const NUMBER = /^-?\d+(?:\.\d+)?$/

/**
 * Reads several days of weather at once, each as `mon 8 21 4`: the day, then lowest, highest and rain in the units of
 * the site (°C and mm, or °F and inches). `?` stands for what was not read, and stays unknown.
 */
export function readWeatherDays(
  texts: readonly string[],
  { units, ...when }: When & { units: 'metric' | 'us' | 'imperial' },
): WeatherDaysResult {
  const [degree, depth] = units === 'metric' ? ['C', 'mm'] : ['F', 'in']
  const entries: PlainEntry[] = []
  for (const text of texts.flatMap((one) => one.split(';')).filter((one) => one.trim() !== '')) {
    const words = text.trim().split(/[\s,]+/)
    const [low = '', high = '', rain = ''] = words.slice(-3)
    const readings = [low, high, rain]
    if (words.length < 4 || !readings.every((word) => word === '?' || NUMBER.test(word)))
      return {
        fault: {
          message: `\`${text.trim()}\` is not a day of weather`,
          help: `write the day, lowest, highest and rain, like "mon 8 21 4" (${degree} and ${depth}); ? for what was not read`,
        },
      }
    const day = readSaidDate(words.slice(0, -3).join(' '), { ...when, said: 'measured' })
    if (day.fault) return { fault: day.fault }
    const entry: PlainEntry = { date: day.date }
    if (low !== '?') entry.low = `${low} ${degree}`
    if (high !== '?') entry.high = `${high} ${degree}`
    if (rain !== '?') entry.rain = `${rain} ${depth}`
    entries.push(entry)
  }
  if (entries.length === 0)
    return {
      fault: {
        message: 'no day of weather is given',
        help: `write the day, lowest, highest and rain, like "mon 8 21 4" (${degree} and ${depth})`,
      },
    }
  return { entries }
}
