import { windBand } from '../../agronomy/spraying/spray-weather.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { lowest } from '../../agronomy/statistics/extremes.ts'
import { judged } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import { COMPASS_POINTS } from '../../records/compass.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** m/s as an anemometer reads it, where km/h or mph were converted. */
const windText = (wind: number) => `${Number(wind.toFixed(2))} m/s`

/** Above this wind drift is a high hazard, m/s. */
const STRONG = 6

/** Sprayed in too much wind. */
export const windy: Rule = {
  name: 'windy',
  what: 'The wind was above the limit that the vineyard or a product in the tank names. That limit is law or label, so it is an error. Without a limit, wind above 6 m/s is a warning. Several countries stop at about 5 m/s: write your own limit.',
  limits:
    "The limits are `limits: wind` in vineyard.yaml and the product's `wind`. Without either, it is 6 m/s.",
  source: 'Waikato Regional Council plan, chart 6.2.9 (above 6 m/s high hazard)',
  basis: 'read',
  check: (input) =>
    judged(input, 'sprays').flatMap((spray) => {
      const wind = spray.weather?.wind
      if (wind === undefined) return []
      const { vineyard, products } = input.ledger
      const limits = [
        { most: vineyard.limits?.wind, record: vineyard, path: ['limits', 'wind'] },
        ...spray.products.flatMap(({ product: id }) => {
          const record = products.get(id)
          return record ? { most: record.wind, record, path: ['wind'] } : []
        }),
      ]
      const most = lowest(limits.flatMap((limit) => limit.most ?? []))
      const own = limits.find((limit) => limit.most === most)
      const limit = own ? most : STRONG
      if (!exceeds(wind, limit)) return []
      const whose = own ? mention(own.record, own.path) : 'Waikato Regional Council, chart 6.2.9'
      return findingAt(spray, ['weather', 'wind'], {
        level: own ? 'error' : 'warning',
        message: `wind of ${windText(wind)}, above ${figureText(limit, 'm/s')} (${whose}): the spray drifts`,
        help: 'check the figure and its unit (km/h is 3.6 times m/s); do not spray in such wind',
      })
    }),
}

/** Sprayed in air that hardly moves. */
export const stillAir: Rule = {
  name: 'still-air',
  what: 'The wind was below 1 m/s. Fine drops hang in still air. They may drift far in an inversion. Those are common from an hour or two before sunset to an hour after sunrise.',
  limits: 'The limit is 1 m/s.',
  source: 'Waikato Regional Council plan, chart 6.2.9; GRDC Spray Application Manual, module 10.8, 2025',
  basis: 'read',
  check: (input) =>
    judged(input, 'sprays').flatMap((spray) => {
      const wind = spray.weather?.wind
      if (wind === undefined || windBand(wind) !== 'still') return []
      return findingAt(spray, ['weather', 'wind'], {
        level: 'hint',
        message: `wind of ${windText(wind)}: fine drops hang in still air`,
        help: 'look for an inversion (smoke or mist that lies flat) before spraying in still air',
      })
    }),
}

/** A wind by its name. */
const NAME = /^(?:north|south|(?:north|south)?[- ]?(?:east|west))(?:erly)?$/
const DEGREES = /^(\d{1,3})(?: ?\u00b0)?$/
const NONE = /^(?:calm|still|variable|var\.?|changing|none|-)$/

/** A wind direction that isn't one. */
export const windDirection: Rule = {
  name: 'wind-direction',
  what: "The wind direction is not a compass point, so the record doesn't say where spray may have drifted.",
  limits:
    'Write a point (SW, NNE, south-west), degrees from 0 to 360, calm or variable. Several are joined by `-`, `/` or `to`.',
  source: 'WMO-No. 306, Manual on Codes, table 0877, year not known: degrees from north, from memory',
  basis: 'memory',
  check: (input) =>
    judged(input, 'sprays').flatMap((spray) => {
      const from = spray.weather?.from
      if (from === undefined || isDirection(from)) return []
      return findingAt(spray, ['weather', 'from'], {
        message: `\`${from}\` is not a wind direction`,
        help: 'write a point of the compass, like SW, or degrees from north',
      })
    }),
}

function isDirection(text: string): boolean {
  const typed = text.trim().toLowerCase()
  const alone = (word: string) => {
    const degrees = DEGREES.exec(word)
    return (
      COMPASS_POINTS.includes(word.toUpperCase()) ||
      NAME.test(word) ||
      NONE.test(word) ||
      (degrees !== null && Number(degrees[1]) <= 360)
    )
  }
  return alone(typed) || typed.split(/[-\u2013/,]|\bto\b|\band\b/).every((word) => alone(word.trim()))
}
