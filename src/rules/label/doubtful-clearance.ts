import { judged } from '../../facts/judged.ts'
import { overLabelOf } from '../../facts/spraying/over-label.ts'
import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
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
      const doubt = doubtOf(input.ledger, spray, input.asOf)
      return doubt ? findingAt(spray, ['cleared', ...doubt.at], doubt.finding) : []
    }),
}

type DoubtfulFinding = { level?: 'error'; message: string; help: string }

function doubtOf(
  ledger: Ledger,
  spray: SprayEntry,
  asOf: string,
): { at: string[]; finding: DoubtfulFinding } | null {
  const { cleared } = spray
  if (!cleared) return null
  if (overLabelOf(ledger, spray).length === 0)
    return {
      at: [],
      finding: {
        message:
          "nothing in this spray was over its label. So the label's own times apply, and the clearance does not count",
        help: 'correct the dose if mistyped, or delete `cleared`',
      },
    }
  const early = (
    [
      ['on', cleared.on],
      ['pick_from', cleared.pick_from],
      ['enter_from', cleared.enter_from],
    ] as const
  ).find(([, date]) => date !== undefined && date < spray.date)
  if (early)
    return {
      at: [early[0]],
      finding: {
        level: 'error',
        message: `cleared ${early[0] === 'on' ? 'on' : 'from'} ${spokenDate(early[1]!)}, before it was sprayed on ${spokenDate(spray.date)}`,
        help: 'correct the date',
      },
    }
  if (cleared.on <= asOf) return null
  return {
    at: ['on'],
    finding: {
      level: 'error',
      message: `cleared on ${spokenDate(cleared.on)}, in the future on ${spokenDate(asOf)}`,
      help: 'correct the date; do not pick or re-enter until you have an answer',
    },
  }
}
