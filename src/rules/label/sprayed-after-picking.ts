import { inSeason, judged } from '../../facts/judged.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** A spray of a block that had been picked. */
export const sprayedAfterPicking: Rule = {
  name: 'sprayed-after-picking',
  about: {
    what: 'A block was sprayed after its last pick of the season, and no pick says that fruit was left. The date or the block is likely wrong; a spray on the leaves after harvest is possible.',
    source: 'own rule',
    basis: 'own',
  },
  check: (book) => {
    const picksOf = inSeason(book, book.ledger.picks)
    return judged(book, 'sprays').flatMap((spray) =>
      spray.blocks.flatMap((id, index) => {
        const last = picksOf({ block: id, season: spray.season }).at(-1)
        if (!last || last.date >= spray.date || (last.rest ?? 0) > 0) return []
        return findingAt(spray, spray.blocks.length > 1 ? ['blocks', index] : ['date'], {
          message: `${id} was sprayed on ${spray.date}, after it was picked on ${last.date} (${mention(last, ['date'])})`,
          help: 'check date and block; if fruit was left on the vines, write `rest` into the pick',
        })
      }),
    )
  },
}
