import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { COMPASS_POINTS } from '../../records/compass.ts'
import { fault, type Read } from '../../records/fault.ts'
import { weatherDay } from '../../records/kinds/weather-day.ts'
import { readQuantity } from '../../records/quantity.ts'
import { typedRain } from '../../records/typed/rain.ts'
import { readTypedDate } from '../../records/typed/typed-date.ts'
import { faultOf, tidy } from './read.ts'
import type { When } from './read-value.ts'

const POINTS = COMPASS_POINTS.join('|')
/** A number with its unit, which no point of the compass is, or a word. */
const PIECE = new RegExp(`[+-]?\\d[\\d.,]*(?:\\s*(?!(?:${POINTS})(?![^\\s,]))[^\\s\\d,]+)?|[^\\s,]+`, 'gi')

/**
 * Reads the weather of a spray on one line, each part by its unit: `1.8 m/s SW 17 C 70 %`. What has no unit and
 * is no point of the compass is the sky.
 * @param like an example in the units of the site
 */
export function readWeather(text: string, like = '1.8 m/s SW 17 C 70 %'): Read<{ weather: PlainEntry }> {
  const weather: PlainEntry = {}
  const sky: string[] = []
  for (const piece of text.match(PIECE) ?? []) {
    const part = piece.trim()
    if (!/\d/.test(part)) {
      const point = part.toUpperCase()
      if (COMPASS_POINTS.includes(point)) weather.from = point
      else sky.push(part)
      continue
    }
    const key = keyOf(part, like)
    if (key.fault) return { fault: key.fault }
    if (weather[key.key] !== undefined)
      return fault(`\`${part}\` gives the ${key.key} a second time`, 'keep one of them')
    weather[key.key] = tidy(part, { keeps: ['m/s'] })
  }
  if (sky.length > 0) weather.sky = sky.join(' ')
  return { weather }
}

function keyOf(part: string, like: string): Read<{ key: string }> {
  const units = { wind: 'm/s', temperature: 'C', humidity: '%' }
  for (const [key, unit] of Object.entries(units)) {
    const { fault: wrong } = readQuantity(part, [unit])
    if (!wrong) return { key }
    if (wrong.name === 'decimal-comma' || wrong.name === 'not-a-quantity') return { fault: wrong }
  }
  return fault(`\`${part}\` has no unit that tells what it is`, `write it as ${like}`)
}

const READING = /^(-?(?:\d{1,9}(?:\.\d{1,9})?|\.\d{1,9}))(?:\u00b0?(C|F)|(mm|in))?$/i

/** A reading with its unit, the site's where it has none; `?` as it is; null where it is neither. */
function withUnit(word: string, unit: string, own: 2 | 3): string | null {
  if (word === '?') return word
  const read = READING.exec(word)
  if (!read || read[5 - own] !== undefined) return null
  const said = read[own]
  return `${read[1]!.replace(/^(-?)\./, '$10.')} ${said === undefined ? unit : own === 2 ? said.toUpperCase() : said.toLowerCase()}`
}

/**
 * Reads several days of weather at once, each as `mon 8 21 4`: the day, then lowest, highest and rain in the units of
 * the site (°C and mm, or °F and inches), or each with its own. `?` stands for what was not read, and stays unknown.
 */
export function readWeatherDays(
  texts: readonly string[],
  { units, ...when }: When,
): Read<{ entries: PlainEntry[] }> {
  const [degree, depth, like] = units === 'metric' ? ['C', 'mm', '8 21 4'] : ['F', 'in', '46 70 0.2']
  const help = `write the day, lowest, highest and rain, like "mon ${like}" (${degree} and ${depth})`
  const entries: PlainEntry[] = []
  for (const text of texts.flatMap((one) => one.split(';')).filter((one) => one.trim() !== '')) {
    const words = text.trim().split(/[\s,]+/)
    const [low = '', high = '', rain = ''] = words.slice(-3)
    const degrees = (word: string) => withUnit(word, degree, 2)
    const readings = [degrees(low), degrees(high), typedRain(rain, units) ?? withUnit(rain, depth, 3)]
    if (words.length < 4 || readings.includes(null))
      return fault(`\`${text.trim()}\` is not a day of weather`, `${help}; ? for what was not read`)
    const day = readTypedDate(words.slice(0, -3).join(' '), { ...when, purpose: 'measured' })
    if (day.fault) return { fault: day.fault }
    const entry: PlainEntry = { date: day.date }
    for (const [at, key] of ['low', 'high', 'rain'].entries())
      if (readings[at] !== '?') entry[key] = readings[at]!
    const issue = weatherDay().safeParse(entry).error?.issues[0]
    if (issue) return faultOf(issue)
    entries.push(entry)
  }
  return entries.length === 0 ? fault('no day of weather is given', help) : { entries }
}
