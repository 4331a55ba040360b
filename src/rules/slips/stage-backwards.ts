import { once } from '../../facts/say.ts'
import { findingAt, mention, type Rule } from '../rule.ts'
import { type SeenStage, stageSequences } from './stage-sequence.ts'

/** Stages by which two looks may differ without a slip. */
const SLACK = 2

/** A growth stage that doesn't fit those before and after it. */
export const stageBackwards: Rule = {
  name: 'stage-backwards',
  about: {
    what: 'Growth does not run backwards: a stage comes after a later one. The stages of a block that fit together are taken as right, and the others are named. A difference of two stages between looks is allowed.',
    limits: '2 stages of the BBCH scale',
    source: 'own rule; scale: Lorenz et al. 1995',
    basis: 'own',
  },
  check: (book) =>
    once(
      [...stageSequences(book).values()].flatMap((seen) => {
        const kept = longestRise(seen)
        const standing = [...kept].sort((a, b) => a - b)
        return seen.flatMap((one, index) => {
          if (kept.has(index)) return []
          const at = standing.find((at) => clash(at < index ? [seen[at]!, one] : [one, seen[at]!]))
          if (at === undefined) return []
          const other = seen[at]!
          return [
            findingAt(one.entry, ['stage'], {
              name: 'stage-backwards',
              level: 'warning',
              message: `stage ${one.stage} on ${one.date} does not fit stage ${other.stage} on ${other.date} (${mention(other.entry, ['stage'])})`,
              help: 'check stage and date of both',
            }),
          ]
        })
      }),
    ),
}

const clash = ([before, after]: readonly [SeenStage, SeenStage]) => after.stage + SLACK < before.stage

/** Indexes of the longest list of stages that never clash; of equals, the one with more of the earlier. */
function longestRise(seen: readonly SeenStage[]): Set<number> {
  const from: number[] = []
  // For each stage the longest list that ends in it, the earliest of equals: of stages there are few.
  const longest = new Map<number, End>()
  for (const [index, { stage }] of seen.entries()) {
    let before: End = { index: -1, length: 0 }
    for (const [other, end] of longest) if (other <= stage + SLACK) before = better(before, end)
    from[index] = before.index
    longest.set(stage, better(longest.get(stage), { index, length: before.length + 1 }))
  }
  const kept = new Set<number>()
  const last = [...longest.values()].reduce(better, { index: -1, length: 0 })
  for (let at = last.index; at >= 0; at = from[at]!) kept.add(at)
  return kept
}

interface End {
  index: number
  length: number
}

function better(one: End | undefined, other: End): End {
  if (!one || other.length > one.length) return other
  return other.length === one.length && other.index < one.index ? other : one
}
