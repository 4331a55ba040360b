import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { COMPASS_POINTS } from '../../records/compass.ts'
import { readQuantity } from '../../records/quantity.ts'
import { fault, type Read } from './read.ts'
import { tidy } from './read-value.ts'

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
