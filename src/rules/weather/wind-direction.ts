import { judged } from '../../facts/judged.ts'
import { COMPASS_POINTS } from '../../records/compass.ts'
import { findingAt, type Rule } from '../rule.ts'

/** A wind by its name. */
const NAME = /^(?:north|south|(?:north|south)?[- ]?(?:east|west))(?:erly)?$/
const DEGREES = /^(\d{1,3})(?: ?\u00b0)?$/
const NONE = /^(?:calm|still|variable|var\.?|changing|none|-)$/

/** Where the wind came from is no direction. */
export const windDirection: Rule = {
  name: 'wind-direction',
  about: {
    what: "The wind direction is not a compass point, so the record doesn't say where spray may have drifted.",
    limits:
      'a point (SW, NNE, south-west), degrees from 0 to 360, or calm or variable; several by `-`, `/` or `to`',
    source: 'WMO-No. 306, Manual on Codes, table 0877, year not known: degrees from north, from memory',
    basis: 'memory',
  },
  check: (book) =>
    judged(book, 'sprays').flatMap((spray) => {
      const from = spray.weather?.from
      if (from === undefined || isDirection(from)) return []
      return [
        findingAt(spray, ['weather', 'from'], {
          name: 'wind-direction',
          level: 'warning',
          message: `\`${from}\` is not a wind direction`,
          help: 'write a point of the compass, like SW, or degrees from north',
        }),
      ]
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
