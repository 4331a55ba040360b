import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import { type OverLabel, overLabelOf } from './over-label.ts'
import { type ReEntryEnd, reEntryEnd, withoutReEntry } from './re-entry.ts'

/** Until when nobody may enter after a spray. */
export interface KeepOut {
  /** The end of the longest wait; null where no product gives one, or where the spray was over the label. */
  over: ReEntryEnd | null
  /** Products whose record gives no re-entry interval. */
  unknown: string[]
  /** What was over the label: the label's interval doesn't hold for it, and no end is known. */
  overLabel: OverLabel[]
}

/** The longest re-entry interval of what was in the tank, from the end of spraying. */
export function keepOutOf(ledger: Ledger, spray: SprayEntry): KeepOut {
  const ids = [...new Set(spray.products.map(({ product }) => product))]
  const products = ids.map((id) => ledger.products.get(id) ?? { id, re_entry: undefined })
  const overLabel = overLabelOf(ledger, spray)
  return {
    over: overLabel.length > 0 ? null : reEntryEnd(spray, products, { zone: ledger.vineyard.timezone }),
    unknown: withoutReEntry(products),
    overLabel,
  }
}
