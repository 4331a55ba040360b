import { inSeason, judged, judgedApplications, statedTargets } from '../../facts/judged.ts'
import { ripeningSeen } from '../../facts/ripeness/ripening.ts'
import { daysBeforeHarvest, daysBeforeHarvestPath } from '../../facts/spraying/label.ts'
import { overLabelOf } from '../../facts/spraying/over-label.ts'
import { earliestPick } from '../../facts/spraying/spray-end.ts'
import { addDays } from '../../records/date.ts'
import { longDate, spokenDate } from '../../records/spoken-date.ts'
import { blockName, findingAt, mention, OWN_RULE, type Rule } from '../rule.ts'

/** A spray whose pre-harvest interval runs past the day on which the block should be ripe. */
export const daysBeforePlannedHarvest: Rule = {
  name: 'days-before-planned-harvest',
  what: 'After a spray, the block may not be picked for all or part of its ripening time. That time is counted from the start of ripening seen in the block. A hint: the time is an estimate. A spray over its label is left out: it has no date.',
  limits: "The variety's `after_veraison` counts, from the first stage of 81 to 85 in `stages`.",
  source: "the label as copied into the product's record, and the variety's own figures",
  basis: 'own',
  check(input) {
    const { ledger } = input
    const ripening = ripeningSeen(input)
    const picksOf = inSeason(input, ledger.picks)
    return judgedApplications(input)
      .filter(({ spray }) => overLabelOf(ledger, spray).length === 0)
      .flatMap((one) => {
        const { block, spray, product } = one
        const span = ledger.varieties.get(block.variety)?.after_veraison
        const here = { block: block.id, season: spray.season }
        const turned = ripening(here)
        const days = daysBeforeHarvest(product, statedTargets(one))
        const last = picksOf(here).at(-1)
        const picked = last !== undefined && (last.rest ?? 0) === 0
        if (!span || !turned || turned.stage >= 89 || days === null || picked) return []
        const first = addDays(turned.date, Math.round(span.low))
        const end = addDays(turned.date, Math.round(span.high))
        const { cautious } = earliestPick(spray, days)
        if (cautious <= first || spray.date > end) return []
        const all = cautious > end
        return findingAt(spray, ['date'], {
          level: 'hint',
          message: `${product.name} forbids picking ${block.name} before ${spokenDate(cautious)} (${mention(product, daysBeforeHarvestPath(product, statedTargets(one)))}). Its variety ripens ${spokenDate(first)} to ${spokenDate(end)}`,
          help: all ? 'check the date; the crop would be over-ripe by then' : 'plan to pick from that day',
        })
      })
  },
}

/** A spray of a block that had been picked. */
export const sprayedAfterPicking: Rule = {
  name: 'sprayed-after-picking',
  what: 'A block was sprayed after its last pick of the season, and no pick says that fruit was left. The date or the block is likely wrong; a spray on the leaves after harvest is possible.',
  ...OWN_RULE,
  check: (input) => {
    const picksOf = inSeason(input, input.ledger.picks)
    return judged(input, 'sprays').flatMap((spray) =>
      spray.blocks.flatMap((id, index) => {
        const last = picksOf({ block: id, season: spray.season }).at(-1)
        if (!last || last.date >= spray.date || (last.rest ?? 0) > 0) return []
        return findingAt(spray, spray.blocks.length > 1 ? ['blocks', index] : ['date'], {
          message: `${blockName(input, id)} was sprayed on ${longDate(spray.date)}, after it was picked on ${longDate(last.date)} (${mention(last, ['date'])})`,
          help: 'check date and block; if fruit was left on the vines, write `rest` into the pick',
        })
      }),
    )
  },
}
