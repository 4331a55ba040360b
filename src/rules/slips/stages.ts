import { longDate } from '../../records/spoken-date.ts'
import { findingAt, mention, PRACTICE, type Rule } from '../rule.ts'
import { type SeenStage, stageSequences } from './stage-sequence.ts'
import { northernMonth } from './usual.ts'

/** Stages by which two observations may differ without a mistake. */
const SLACK = 2

/** A growth stage that doesn't fit those before and after it. */
export const stageBackwards: Rule = {
  name: 'stage-backwards',
  what: 'Growth does not run backwards: a stage comes after a later one. The stages of a block that fit together are taken as right, and the others are named. A difference of two stages between looks is allowed.',
  limits: 'Two stages of the BBCH scale are allowed.',
  source: 'own rule; scale: Lorenz et al. 1995',
  basis: 'own',
  check: (input) =>
    [...stageSequences(input).values()].flatMap((seen) => {
      const kept = longestRise(seen)
      const standing = [...kept].sort((a, b) => a - b)
      return seen.flatMap((one, index) => {
        if (kept.has(index)) return []
        const at = standing.find((at) => clash(at < index ? [seen[at]!, one] : [one, seen[at]!]))
        if (at === undefined) return []
        const other = seen[at]!
        return findingAt(one.entry, ['stage'], {
          message: `stage ${one.stage} on ${longDate(one.date)} does not fit stage ${other.stage} on ${longDate(other.date)} (${mention(other.entry, ['stage'])})`,
          help: 'check stage and date of both',
        })
      })
    }),
}

const clash = ([before, after]: readonly [SeenStage, SeenStage]) => after.stage + SLACK < before.stage

/** Indexes of the longest list of stages that never clash; of equals, the one that ends earlier. */
function longestRise(seen: readonly SeenStage[]): Set<number> {
  // For each stage, the longest list that ends in it, the earliest of equals. There are few stages.
  const longest = new Map<number, number[]>()
  for (const [index, { stage }] of seen.entries()) {
    const before = [...longest].flatMap(([other, list]) => (other <= stage + SLACK ? [list] : []))
    const rise = [...before.reduce(better, []), index]
    longest.set(stage, better(longest.get(stage) ?? [], rise))
  }
  return new Set([...longest.values()].reduce(better, []))
}

const better = (one: number[], other: number[]): number[] =>
  other.length > one.length || (other.length === one.length && other.at(-1)! < one.at(-1)!) ? other : one

/** Months, counted as in the north, in which stages are seen; wide on purpose. */
const MONTHS = [
  { from: 1, to: 9, months: [2, 3, 4, 5] },
  { from: 11, to: 19, months: [3, 4, 5, 6] },
  { from: 53, to: 57, months: [4, 5, 6, 7] },
  { from: 60, to: 69, months: [5, 6, 7] },
  { from: 71, to: 79, months: [5, 6, 7, 8, 9] },
  { from: 81, to: 89, months: [6, 7, 8, 9, 10, 11] },
  { from: 91, to: 99, months: [8, 9, 10, 11, 12, 1, 2, 3] },
] as const

/** A growth stage at a time of year when no vine is there. */
export const stageOutOfSeason: Rule = {
  name: 'stage-out-of-season',
  what: 'The growth stage does not fit the date, like flowering in winter. The months are wide, and shifted by half a year in the south.',
  limits:
    'Usual in the north are: buds Feb to May; leaves Mar to Jun; flower clusters Apr to Jul; flowering May to Jul; berries May to Sep; ripening Jun to Nov; after harvest Aug to Mar. Checked only beyond 25 degrees of latitude.',
  ...PRACTICE,
  check(input) {
    const { vineyard } = input.ledger
    return [...stageSequences(input).values()].flat().flatMap(({ entry, date, stage }) => {
      const month = northernMonth(vineyard, date)
      const span = MONTHS.find(({ from, to }) => stage >= from && stage <= to)
      if (month === null || !span || (span.months as readonly number[]).includes(month)) return []
      return findingAt(entry, ['stage'], {
        message: `stage ${stage} on ${longDate(date)} does not fit the time of year`,
        help: 'check stage and date',
      })
    })
  },
}
