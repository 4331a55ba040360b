import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { applications, dosePath, groupedBy, isJudged, judgedApplications } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import { copperOf, copperOverYears } from '../../facts/spraying/copper.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** More copper in a season than the vineyard's limit. */
export const copperOverSeason: Rule = {
  name: 'copper-over-season',
  what: 'The copper metal on a block in one season is above the limit. All products with copper count, per hectare of the whole block. Content is taken as metal, as labels give it, unless the record says `as: compound`.',
  limits: 'The limit is `limits: copper: per_season` in vineyard.yaml. Without it, nothing is checked.',
  source:
    'the law or scheme that the grower is under; many states cap the year beside Implementing Regulation (EU) 2018/1981',
  basis: 'read',
  check(input) {
    const { vineyard } = input.ledger
    const limit = vineyard.limits?.copper?.per_season
    if (limit === undefined) return []
    const mine = judgedApplications(input)
    return [...groupedBy(mine, ({ block, spray }) => `${block.id} ${spray.season}`).values()].flatMap(
      (list) => {
        let sum = 0
        return list.flatMap((one) => {
          const copper = copperOf(one)
          if (!copper) return []
          sum += copper
          if (!exceeds(sum, limit)) return []
          return findingAt(one.spray, dosePath(one), {
            level: 'error',
            message: `${figureText(sum, 'kg/ha')} of copper on ${one.block.name} this season, of ${figureText(limit, 'kg/ha')} (${mention(vineyard, ['limits', 'copper', 'per_season'])})`,
            help: 'correct the entry if mistyped; else no more copper here this season',
          })
        })
      },
    )
  },
}

/** More copper over several years than the vineyard's limit. */
export const copperOverYearsRule: Rule = {
  name: 'copper-over-years',
  what: 'The copper metal on a block is above the limit over its calendar years, including this one. Where `from` is written, a fixed period counts instead. Years without records are unknown: the sum is a minimum.',
  limits:
    'The limits are `limits: copper: rolling` and `years` in vineyard.yaml. Without them, nothing is checked.',
  source:
    'Implementing Regulation (EU) 2018/1981: 28 kg/ha over 7 years; it does not say whether the years trail. Trailing by analogy with Regulation (EC) 889/2008. Approval extended by Implementing Regulation (EU) 2025/1489 of 24 July 2025 (title read, its end date not)',
  basis: 'read',
  check(input) {
    const { ledger } = input
    return [...groupedBy(applications(input), ({ block }) => block.id).values()].flatMap((list) =>
      list.flatMap((one, index) => {
        if (!isJudged(input, one.spray) || !copperOf(one)) return []
        const window = copperOverYears(ledger, list.slice(0, index + 1), one.spray.date)
        if (!window?.over) return []
        return findingAt(one.spray, dosePath(one), {
          level: 'error',
          message: `${figureText(window.sum!, 'kg/ha')} of copper on ${one.block.name} in ${window.from}-${window.to}, of ${figureText(window.limit, 'kg/ha')} (${mention(ledger.vineyard, ['limits', 'copper', 'rolling'])})`,
          help: 'correct the entry if mistyped; else no more copper here this year',
        })
      }),
    )
  },
}
