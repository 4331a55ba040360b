import { once } from '../../facts/say.ts'
import { findingAt, mention, type Rule } from '../rule.ts'
import { type SeenStage, stageSequences } from './stage-sequence.ts'

/** Stages by which two looks may differ without a slip. */
const SLACK = 2

/** A growth stage that doesn't fit those before and after it. */
export const stageBackwards: Rule = {
  name: 'stage-backwards',
  about: {
    what: 'Growth does not run backwards: a stage stands after a later one. Of the stages of a block, as many as fit together are taken as right, and the others are named. Two stages of difference are allowed between looks.',
    limits: '2 stages of the BBCH scale',
    source: 'own rule; scale: Lorenz et al. 1995',
    basis: 'own',
  },
  check: (book) =>
    once(
      [...stageSequences(book).values()].flatMap((seen) => {
        const kept = longestRise(seen)
        return seen.flatMap((one, index) => {
          if (kept.has(index)) return []
          const other = seen.find(
            (against, at) => kept.has(at) && clash(at < index ? [against, one] : [one, against]),
          )
          if (!other) return []
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
  const best: number[] = []
  const from: number[] = []
  seen.forEach((one, index) => {
    best[index] = 1
    from[index] = -1
    for (let before = 0; before < index; before++) {
      if (seen[before]!.stage <= one.stage + SLACK && best[before]! + 1 > best[index]!) {
        best[index] = best[before]! + 1
        from[index] = before
      }
    }
  })
  const kept = new Set<number>()
  for (let at = best.indexOf(Math.max(...best)); at >= 0; at = from[at]!) kept.add(at)
  return kept
}
