import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import { waitOver } from './spray-end.ts'

/** Until when nobody may enter after a spray. */
export interface KeepOut {
  /** The end of the longest wait; null where no product gives one. */
  over: ReturnType<typeof waitOver> | null
  /** The product that asks for it, and its hours. */
  by: string | null
  hours: number | null
  /** Products whose record gives no re-entry time. */
  unknown: string[]
}

/** The longest re-entry time of what was in the tank, from the end of spraying. */
export function keepOutOf(ledger: Ledger, spray: SprayEntry): KeepOut {
  const times = spray.products.map(({ product }) => ({
    product,
    hours: ledger.products.get(product)?.re_entry,
  }))
  const unknown = [...new Set(times.filter(({ hours }) => hours === undefined).map(({ product }) => product))]
  const longest = times
    .flatMap(({ product, hours }) => (hours === undefined ? [] : [{ product, hours }]))
    .reduce<{ product: string; hours: number } | null>(
      (best, one) => (best && best.hours >= one.hours ? best : one),
      null,
    )
  if (!longest) return { over: null, by: null, hours: null, unknown }
  const over = waitOver(spray, longest.hours, ledger.vineyard.timezone)
  return { over, by: longest.product, hours: longest.hours, unknown }
}
