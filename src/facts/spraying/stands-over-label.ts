import type { ReportInput } from '../report.ts'
import { overLabelOf } from './over-label.ts'

/** What to do where a block was sprayed over the label and nobody cleared it, before any other spray. */
export const ASK_FIRST =
  'No spray: this block was sprayed over the label. Ask your adviser or the authority first.'

/** How to record a clearance for a spray over the label. */
export const HOW_TO_CLEAR =
  'write into the spray, once you are told: cleared: { on: DATE, by: NAME, pick_from: DATE }'

/** Whether a spray of the season was over the label in a block, and nobody has cleared it. */
export const standsOverLabel = (
  { ledger, season, asOf }: Pick<ReportInput, 'ledger' | 'season' | 'asOf'>,
  block: string,
): boolean =>
  ledger.sprays.some(
    (spray) =>
      spray.season === season &&
      spray.date <= asOf &&
      spray.blocks.includes(block) &&
      !spray.cleared &&
      overLabelOf(ledger, spray).length > 0,
  )
