import { judgedApplications, productPath } from '../../facts/judged.ts'
import { listed, rangeText } from '../../facts/sentences.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import { OVER_LABEL } from '../../facts/spraying/over-label.ts'
import { stagesOutside } from '../../facts/spraying/stage-limit.ts'
import type { Ledger, Named, SprayEntry } from '../../ledger/read/ledger.ts'
import type { Product } from '../../records/kinds/product.ts'
import { longDate, spokenDate } from '../../records/spoken-date.ts'
import { type Found, findingAt, mention, type Rule, YOUR_LABEL } from '../rule.ts'

/** A product used against something, or at a growth stage, that its label doesn't name. */
export const notAuthorisedFor: Rule = {
  name: 'not-authorised-for',
  what: 'The entry names a target that is not on the label, or a stage outside those of that use. Without a stage in the entry, the last one noted on most vines of the block counts. Adjuvants have no target of their own.',
  limits: "The product's `uses` count, `against` and `stages`, and the block's own `stages` entries.",
  ...YOUR_LABEL,
  check: (input) =>
    judgedApplications(input)
      .filter(({ product }) => product.kind !== 'adjuvant')
      .flatMap((one) => [...offTarget(one.spray, one.product, one.part), ...outOfStage(input.ledger, one)]),
}

/** The stated targets of a product in a spray that its label doesn't name, for any block. */
export function offTarget(spray: SprayEntry, product: Named<Product>, part: number): Found[] {
  const named = [...new Set(product.uses.map(({ against }) => against))]
  return (spray.products[part]!.for ?? []).flatMap((target, index) =>
    named.includes(target)
      ? []
      : findingAt(spray, ['products', part, 'for', index], {
          level: 'error',
          message: `the label of ${product.name} names ${listed(named)}, not ${target} (${mention(product, ['uses'])})`,
          help: `correct the target here; or if the label has it, the use in ${mention(product, ['uses'])}`,
        }),
  )
}

function outOfStage(ledger: Ledger, one: Application): Found[] {
  const { spray, product } = one
  return stagesOutside(ledger, one).map(({ stage, noted, target, allowed, path, isLate }) => {
    const what = noted === null ? `stage ${stage}` : `stage ${stage}, noted on ${spokenDate(noted)},`
    const slip = noted === null ? 'correct the stage if mistyped' : 'correct the date if mistyped'
    return findingAt(spray, [noted === null ? 'stage' : 'date'], {
      level: 'error',
      message: `${what} is outside the label of ${product.name}${target ? ` against ${target}` : ''}, ${listed(allowed.map((span) => rangeText({ ...span, unit: '' })))} (${mention(product, path)})`,
      help: isLate
        ? `${slip}. If it was really sprayed this late, ${OVER_LABEL}`
        : `${slip}; else ask your adviser`,
    })
  })
}

/** A product used before its authorisation began or after it ended. */
export const authorisationLapsed: Rule = {
  name: 'authorisation-lapsed',
  what: 'A product was used on a day outside its authorisation. The last day itself is inside. If stocks may be used up for a time, write the end of that time as the last day.',
  limits: "The product's `authorisation` counts, `from` and `until`.",
  source: "the authorisation, as copied into the product's record",
  basis: 'own',
  check: (input) =>
    judgedApplications(input).flatMap((one) => {
      const { spray, product } = one
      const { from, until } = product.authorisation ?? {}
      const hasEnded = until !== undefined && spray.date > until
      if (!hasEnded && !(from !== undefined && spray.date < from)) return []
      const said = hasEnded ? `ended on ${longDate(until)}` : `begins on ${longDate(from!)}`
      return findingAt(spray, productPath(one), {
        level: 'error',
        message: `${product.name} was used on ${longDate(spray.date)}, but its authorisation ${said} (${mention(product, ['authorisation', hasEnded ? 'until' : 'from'])})`,
        help: "correct the date, or the product's record if the authorisation was extended; else stop using it",
      })
    }),
}
