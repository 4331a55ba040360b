import { judged } from '../../facts/judged.ts'
import { overLabelOf } from '../../facts/spraying/over-label.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { findingAt, type Rule } from '../rule.ts'

/** A clearance after a spray over the label that can't be as it stands. */
export const doubtfulClearance: Rule = {
  name: 'doubtful-clearance',
  what: "A spray has `cleared:`, the answer of an adviser or the authority after a use over the label. Its date must be after the spray and not in the future. The spray must have been over its label. Otherwise the label's own times apply. A day of picking or entering before the label's own never counts: the later one does.",
  limits: 'The `cleared:` of the spray is checked: `on`, `pick_from`, `enter_from`.',
  source: 'own rule: a clearance is an answer to what was done',
  basis: 'own',
  check: (input) =>
    judged(input, 'sprays').flatMap((spray) => {
      const { cleared, date } = spray
      if (!cleared) return []
      if (overLabelOf(input.ledger, spray).length === 0)
        return findingAt(spray, ['cleared'], {
          message:
            "nothing in this spray was over its label. So the label's own times apply, and the clearance does not count",
          help: 'correct the dose if mistyped, or delete `cleared`',
        })
      const early = (['on', 'pick_from', 'enter_from'] as const).find((key) => (cleared[key] ?? date) < date)
      if (early)
        return findingAt(spray, ['cleared', early], {
          level: 'error',
          message: `cleared ${early === 'on' ? 'on' : 'from'} ${spokenDate(cleared[early]!)}, before it was sprayed on ${spokenDate(date)}`,
          help: 'correct the date',
        })
      if (cleared.on <= input.asOf) return []
      return findingAt(spray, ['cleared', 'on'], {
        level: 'error',
        message: `cleared on ${spokenDate(cleared.on)}, in the future on ${spokenDate(input.asOf)}`,
        help: 'correct the date; do not pick or re-enter until you have an answer',
      })
    }),
}
