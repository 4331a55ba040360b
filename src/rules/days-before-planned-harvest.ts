import { addDays, spokenDate } from '../records/date.ts'
import { applications, isJudged, statedTargets } from './facts/judged.ts'
import { daysBeforeHarvest, daysBeforeHarvestPath } from './facts/label.ts'
import { once } from './facts/say.ts'
import { earliestPick } from './facts/spray-end.ts'
import { findingAt, mention, type Rule } from './rule.ts'

/** A spray whose days before harvest run into the time in which the block should ripen. */
export const daysBeforePlannedHarvest: Rule = {
  name: 'days-before-planned-harvest',
  about: {
    what: 'After a spray the block may not be picked in all or a part of the time in which its variety ripens, reckoned from the beginning of ripening seen in the block. A hint: the time is an estimate.',
    limits: "the variety's `after_veraison`, from the first stage of 81 or later in `stages`",
    source: "the label as copied into the product's record, and the variety's own figures",
    basis: 'own',
  },
  check(book) {
    const { ledger, asOf } = book
    return once(
      applications(book)
        .filter(({ spray }) => isJudged(book, spray))
        .flatMap((one) => {
          const { block, spray, product } = one
          const span = ledger.varieties.get(block.variety)?.after_veraison
          const turned = ledger.stages.find(
            (seen) =>
              seen.block === block.id &&
              seen.season === spray.season &&
              seen.stage >= 81 &&
              seen.stage < 91 &&
              seen.date <= asOf,
          )
          const days = daysBeforeHarvest(product, statedTargets(one))
          const picked = ledger.picks.some((pick) => pick.block === block.id && pick.season === spray.season)
          if (!span || !turned || days === null || picked) return []
          const first = addDays(turned.date, Math.round(span.low))
          const last = addDays(turned.date, Math.round(span.high))
          const { cautious } = earliestPick(spray, days)
          if (cautious <= first || spray.date > last) return []
          const all = cautious > last
          return [
            findingAt(spray, ['date'], {
              name: 'days-before-planned-harvest',
              level: 'hint',
              message: `${product.id} keeps ${block.id} from being picked before ${spokenDate(cautious)} (${mention(product, daysBeforeHarvestPath(product, statedTargets(one)))}); by its variety it ripens from ${spokenDate(first)} to ${spokenDate(last)}`,
              help: all
                ? 'check the date; this crop would be over-ripe before it may be picked'
                : 'plan the picking after that day',
            }),
          ]
        }),
    )
  },
}
