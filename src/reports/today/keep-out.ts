import { productNames } from '../../facts/names.ts'
import { overLabelSentence } from '../../facts/spraying/over-label.ts'
import { HOW_TO_CLEAR, isInDoubt, keepOutOf, untilText, whyKeptOut } from '../../facts/spraying/re-entry.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { instantOf } from '../../records/zone.ts'
import { namesOf, type TodayDraft, type TodayFrom } from './item.ts'

/** Where nobody may enter at some hour of the day, and until when. */
export function keepOutItems(from: TodayFrom): TodayDraft[] {
  const { ledger, asOf, blocks } = from
  const zone = ledger.vineyard.timezone
  const morning = instantOf(asOf, 0, zone)
  const wanted = new Set(blocks.map(({ id }) => id))
  return ledger.sprays.flatMap((spray): TodayDraft[] => {
    const own = spray.blocks.filter((id) => wanted.has(id))
    if (own.length === 0 || spray.date > asOf) return []
    const { over, unknown, overLabel } = keepOutOf(ledger, spray)
    const items: TodayDraft[] = []
    const base = { what: 'keep-out', blocks: own, urgency: 'now' } as const
    if (over && over.instant > morning)
      items.push({
        ...base,
        until: over.iso,
        text: `Keep out of ${namesOf(from, own)} until ${untilText(over)} (${whyKeptOut(over)}).`,
        short: `Keep out until ${untilText(over)}: ${namesOf(from, own)}.`,
        next: 'rowbook calendar --to vineyard.ics',
      })
    if (overLabel.length > 0 && spray.season === from.season)
      items.push({
        ...base,
        text: `${namesOf(from, own)}, sprayed ${spokenDate(spray.date)}: ${overLabelSentence(overLabel)}`,
        short: `Over the label, keep out and do not pick: ${namesOf(from, own)}.`,
        next: HOW_TO_CLEAR,
      })
    if (unknown.length > 0 && isInDoubt(spray.date, morning, zone))
      items.push({
        ...base,
        text: `Keep out of ${namesOf(from, own)} until you have read the label of ${productNames(from.ledger, unknown)}: no re-entry interval (REI) is recorded.`,
        short: `Keep out, REI of ${productNames(from.ledger, unknown)} not recorded: ${namesOf(from, own)}.`,
        next: `write re_entry into products/${unknown[0]}.yaml`,
      })
    return items
  })
}
