import { judged } from '../../facts/judged.ts'
import { daysBetween } from '../../records/date.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

const YEAR = 366
/** A measuring older than this is more likely a slip of the year. */
const SLIP = 5 * YEAR

/** A sprayer that was measured too long ago. */
export const calibrationOld: Rule = {
  name: 'calibration-old',
  about: {
    what: 'A sprayer was used more than a year after its flow was measured (a hint, once a season).',
    limits: 'one year; after five years, a warning at the record of the sprayer',
    source: 'common practice, no source: measure before each season',
    basis: 'common practice',
  },
  check(book) {
    const said = new Set<string>()
    return judged(book, 'sprays').flatMap((spray) => {
      const sprayer = spray.sprayer === undefined ? undefined : book.ledger.sprayers.get(spray.sprayer)
      if (sprayer?.calibrated === undefined) return []
      const days = daysBetween(sprayer.calibrated, spray.date)
      const key = days > SLIP ? sprayer.id : `${sprayer.id} ${spray.season}`
      if (days <= YEAR || said.has(key)) return []
      said.add(key)
      if (days > SLIP)
        return [
          findingAt(sprayer, ['calibrated'], {
            name: 'calibration-old',
            level: 'warning',
            message: `${sprayer.id} was measured on ${sprayer.calibrated}, and used on ${spray.date} (${mention(spray, ['date'])})`,
            help: 'correct the year, or measure it again: `rowbook calibrate`',
          }),
        ]
      return [
        findingAt(spray, ['sprayer'], {
          name: 'calibration-old',
          level: 'hint',
          message: `the flow of ${sprayer.id} was measured ${days} d before (${mention(sprayer, ['calibrated'])})`,
          help: 'measure it again: `rowbook calibrate`',
        }),
      ]
    })
  },
}
