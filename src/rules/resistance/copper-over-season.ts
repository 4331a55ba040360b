import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { dosePath, groupedBy, judgedApplications } from '../../facts/judged.ts'
import { once, say } from '../../facts/say.ts'
import { copperOf } from '../../facts/spraying/copper.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** More copper in a season than the vineyard's limit. */
export const copperOverSeason: Rule = {
  name: 'copper-over-season',
  about: {
    what: 'The copper metal on a block in one season is above the limit, per hectare of the whole block, over all products with copper. Content is taken as metal, as labels give it, unless the record says `as: compound`.',
    limits: '`limits: copper: per_season` in vineyard.yaml; not checked where it is not written',
    source:
      'the law or scheme that the grower is under; many states cap the year beside Implementing Regulation (EU) 2018/1981',
    basis: 'read',
  },
  check(book) {
    const { vineyard } = book.ledger
    const limit = vineyard.limits?.copper?.per_season
    if (limit === undefined) return []
    const mine = judgedApplications(book)
    return once(
      [...groupedBy(mine, ({ block, spray }) => `${block.id} ${spray.season}`).values()].flatMap((list) => {
        let sum = 0
        return list.flatMap((one) => {
          const copper = copperOf(one)
          if (!copper) return []
          sum += copper
          if (!exceeds(sum, limit)) return []
          return [
            findingAt(one.spray, dosePath(one), {
              name: 'copper-over-season',
              level: 'error',
              message: `${say(sum, 'kg/ha')} of copper on ${one.block.id} this season, of ${say(limit, 'kg/ha')} (${mention(vineyard, ['limits', 'copper', 'per_season'])})`,
              help: 'correct the entry if mistyped; else no more copper here this season',
            }),
          ]
        })
      }),
    )
  },
}
