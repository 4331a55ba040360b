import { applications, isJudged, statedTargets } from '../../facts/judged.ts'
import { both, once, saySpan } from '../../facts/say.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import { usesFor } from '../../facts/spraying/label.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** A product used against something, or at a growth stage, that its label doesn't name. */
export const notAuthorisedFor: Rule = {
  name: 'not-authorised-for',
  about: {
    what: 'The entry names a target that the label does not, or a growth stage outside those of the label for that use. Adjuvants have no target of their own.',
    limits: "the product's `uses`: `against` and `stages`",
    source: "the label as copied into the product's record",
    basis: 'read',
  },
  check: (book) =>
    once(
      applications(book)
        .filter(({ spray, product }) => isJudged(book, spray) && product.kind !== 'adjuvant')
        .flatMap((one) => {
          const { spray, product, part } = one
          const named = [...new Set(product.uses.map(({ against }) => against))]
          const targets = (statedTargets(one) ?? []).flatMap((target, index) =>
            named.includes(target)
              ? []
              : [
                  findingAt(spray, ['products', part, 'for', index], {
                    name: 'not-authorised-for',
                    level: 'error',
                    message: `the label of ${product.id} names ${both(named)}, not ${target} (${mention(product, ['uses'])})`,
                    help: 'correct the target, or write the use into the product if the label has it',
                  }),
                ],
          )
          return [...targets, ...outOfStage(one)]
        }),
    ),
}

/** Each target that is named must be in its stages; where none is named, one use in its stages is enough. */
function outOfStage(one: Application): Finding[] {
  const { spray, product } = one
  const { stage } = spray
  if (stage === undefined) return []
  return (statedTargets(one)?.map((target) => [target]) ?? [undefined]).flatMap((targets) => {
    const uses = usesFor(product, targets)
    const closed = uses.filter(({ use: { stages } }) => stages && (stage < stages.low || stage > stages.high))
    if (closed.length === 0 || closed.length < uses.length) return []
    return [
      findingAt(spray, ['stage'], {
        name: 'not-authorised-for',
        level: 'error',
        message: `stage ${stage} is outside the label of ${product.id}${targets ? ` against ${targets[0]}` : ''}, ${both(closed.map(({ use }) => saySpan({ ...use.stages!, unit: '' })))} (${mention(product, ['uses', closed[0]!.index, 'stages'])})`,
        help: 'correct the stage if it is a slip; else ask your adviser',
      }),
    ]
  })
}
