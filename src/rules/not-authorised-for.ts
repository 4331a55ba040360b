import { applications, isJudged, statedTargets } from './facts/judged.ts'
import { both, once, saySpan } from './facts/say.ts'
import { findingAt, mention, type Rule } from './rule.ts'

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
          const uses = product.uses.filter(({ against }) => one.targets.includes(against))
          const open = uses.some(
            ({ stages }) =>
              !stages ||
              (spray.stage !== undefined && spray.stage >= stages.low && spray.stage <= stages.high),
          )
          const first = uses.find(({ stages }) => stages)
          if (spray.stage === undefined || open || !first) return targets
          return [
            ...targets,
            findingAt(spray, ['stage'], {
              name: 'not-authorised-for',
              level: 'error',
              message: `stage ${spray.stage} is outside the label of ${product.id}, ${saySpan({ ...first.stages!, unit: '' }).trim()} (${mention(product, ['uses', product.uses.indexOf(first), 'stages'])})`,
              help: 'correct the stage if it is a slip; else ask your adviser',
            }),
          ]
        }),
    ),
}
