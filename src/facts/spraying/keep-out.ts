import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import { instantOf, wallClock } from '../../records/zone.ts'
import { type Clearance, clearanceOf } from './clearance.ts'
import { type OverLabel, overLabelOf } from './over-label.ts'
import { type ReEntryEnd, reEntryEnd, withoutReEntry } from './re-entry.ts'

/** Until when nobody may enter after a spray. */
export interface KeepOut {
  /** The end of the longest wait; null where no product gives one, or over the label as long as nobody cleared it. */
  over: ReEntryEnd | null
  /** Products whose record gives no re-entry interval. */
  unknown: string[]
  /** What was over the label and not cleared: the label's interval doesn't hold for it, and no end is known. */
  overLabel: OverLabel[]
}

/** The longest re-entry interval of what was in the tank, from the end of spraying. */
export function keepOutOf(ledger: Ledger, spray: SprayEntry): KeepOut {
  const ids = [...new Set(spray.products.map(({ product }) => product))]
  const products = ids.map((id) => ledger.products.get(id) ?? { id, re_entry: undefined })
  const zone = ledger.vineyard.timezone
  const overLabel = overLabelOf(ledger, spray)
  const unknown = withoutReEntry(products)
  const byLabel = reEntryEnd(spray, products, { zone })
  if (overLabel.length === 0) return { over: byLabel, unknown, overLabel }
  const clearance = clearanceOf(spray)
  if (!clearance) return { over: null, unknown, overLabel }
  return { over: asCleared(byLabel, clearance, zone), unknown: [], overLabel: [] }
}

/** The day that was cleared, but never before the label's own interval is over. */
function asCleared(byLabel: ReEntryEnd | null, cleared: Clearance, zone: string): ReEntryEnd {
  const instant = instantOf(cleared.enterFrom, 0, zone)
  if (byLabel && byLabel.instant > instant) return { ...byLabel, cleared }
  return { instant, ...wallClock(instant, zone), by: cleared.by, hours: null, cleared }
}
