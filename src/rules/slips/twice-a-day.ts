import { groupedBy, type JudgedLedger, judged } from '../../facts/judged.ts'
import type { SeasonRecords } from '../../ledger/read/ledger.ts'
import { longDate } from '../../records/spoken-date.ts'
import { blockName, type Found, findingAt, mention, productName, type Rule } from '../rule.ts'
import { isApart, meets, twinOf } from './entered-twice.ts'

type Pick = SeasonRecords['picks'][number]

/** Two picks or two sprays of one block on one day: both count, so an entry typed twice would count twice. */
export const twiceADay: Rule = {
  name: 'twice-a-day',
  what: 'Two picks or two sprays of the same rows on one day that are not the same entry twice. A warning where they are likely one. Sprays then share a product and have no separate times; picks are alike in all but weight. Otherwise a hint, since a split tank or a second trailer is usual.',
  source: 'own rule: what is done once is entered once',
  basis: 'own',
  check(input) {
    return [...picks(input), ...sprays(input)]
  },
}

/** With so many entries on one day, further ones are not compared: a day has no more. Own choice. */
const MOST_A_DAY = 100

const daysOf = <T>(days: ReadonlyMap<string, T[]>): T[][] =>
  [...days.values()].map((day) => day.slice(0, MOST_A_DAY))

function picks(input: JudgedLedger): Found[] {
  const days = groupedBy(judged(input, 'picks'), ({ date, block }) => `${date} ${block}`)
  return daysOf(days).flatMap((day) =>
    day.slice(1).flatMap((pick): Found | [] => {
      if (twinOf('picks', pick, day)) return []
      const first = day[0]!
      return findingAt(pick, ['date'], {
        level: alike(first, pick) ? 'warning' : 'hint',
        message: `${blockName(input, pick.block)} has another pick on ${longDate(pick.date)}, at ${mention(first)}${alike(first, pick) ? ', the same but for its weight' : ''}; both count`,
        help: 'if it is the same pick, correct one with `rowbook note --amend FILE` and delete the other',
      })
    }),
  )
}

/**
 * Figures that two loads of one day hardly have in common, and how many of them make two picks look like one. Own
 * choice.
 */
const OWN = ['people', 'hours', 'brix', 'ph', 'ta', 'crates', 'juice'] as const
const ENOUGH_ALIKE = 2

function alike(one: Pick, other: Pick): boolean {
  const shared = OWN.filter((key) => one[key] !== undefined && other[key] !== undefined)
  return (
    shared.length >= ENOUGH_ALIKE &&
    shared.every((key) => JSON.stringify(one[key]) === JSON.stringify(other[key]))
  )
}

function sprays(input: JudgedLedger): Found[] {
  const days = groupedBy(judged(input, 'sprays'), ({ date }) => date)
  return daysOf(days).flatMap((day) =>
    day.flatMap((spray, at): Found | [] => {
      const first = day.slice(0, at).find((other) => meets(other, spray))
      if (!first || twinOf('sprays', spray, day)) return []
      const both = spray.products.find(({ product }) => first.products.some((one) => one.product === product))
      const isLikely = both !== undefined && !isApart(first, spray)
      const block = spray.blocks.find((id) => first.blocks.includes(id))
      return findingAt(spray, ['date'], {
        level: isLikely ? 'warning' : 'hint',
        message: `${blockName(input, block!)} has another spray on ${longDate(spray.date)}, at ${mention(first)}${both ? `, with ${productName(input, both.product)} in both` : ''}; each counts as an application`,
        help: isLikely
          ? 'if it was sprayed once, delete one of the two; if twice, write the times or rows of each'
          : 'if it was one tank, write it as one entry with all its products',
      })
    }),
  )
}
