import { highest } from '../../agronomy/statistics/extremes.ts'
import type { Clearance } from '../../facts/spraying/clearance.ts'
import { usesFor } from '../../facts/spraying/label.ts'
import type { OverLabel } from '../../facts/spraying/over-label.ts'
import { keepOutOf } from '../../facts/spraying/re-entry.ts'
import { earliestPick } from '../../facts/spraying/spray-end.ts'
import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import { addDays, type IsoDate } from '../../records/date.ts'

/** What follows from a spray, by the labels of its products. */
export interface Follows {
  /** When people may enter again, local time with offset, and its hours (null: until dry); null where no product says, or over the label. */
  reEntry: { until: string; date: IsoDate; minutes: number; hours: number | null } | null
  /** From when picking is allowed: the date counted in days, and the cautious one after full days; null over the label. */
  pick: { calendar: IsoDate; cautious: IsoDate; days: number | null } | null
  /** Who cleared a spray that was over the label; the days above are then those that they named, or later. */
  cleared: Clearance | null
  /** The earliest next application of each product; null where its label gives no interval. */
  next: { product: string; date: IsoDate | null; days: number | null }[]
  /** Whether a clock time is written; else the waiting times count from the end of the day. */
  timed: boolean
  /** What the products' records don't say, so that a figure above may come too early. */
  missing: string[]
  /** What was over the label: no waiting time holds for it. */
  overLabel: OverLabel[]
}

/** Reckons what follows from a spray. Without a clock time it counts from the end of the day. */
export function followsFrom(spray: SprayEntry, ledger: Ledger): Follows {
  const missing: string[] = []
  const days: number[] = []
  const next: Follows['next'] = []
  for (const part of spray.products) {
    const product = ledger.products.get(part.product)
    if (!product) {
      missing.push(`the record of ${part.product}`)
      continue
    }
    const uses = usesFor(product, part.for)
    const waits = (uses.length > 0 ? uses : usesFor(product, undefined)).map(
      ({ use }) => use.before_harvest ?? product.before_harvest,
    )
    const known = waits.filter((wait) => wait !== undefined)
    if (known.length < waits.length) missing.push(`the pre-harvest interval (PHI) of ${part.product}`)
    if (known.length > 0) days.push(highest(known))
    if (product.re_entry === undefined) missing.push(`the re-entry interval (REI) of ${part.product}`)
    const intervals = uses.flatMap(({ use }) => (use.interval ? [use.interval.low] : []))
    const interval = intervals.length > 0 ? highest(intervals) : null
    next.push({
      product: part.product,
      date: interval === null ? null : addDays(spray.date, Math.ceil(interval)),
      days: interval,
    })
  }
  const { over, overLabel } = keepOutOf(ledger, spray)
  const isOver = overLabel.length > 0
  const cleared = over?.cleared ?? null
  return {
    reEntry: over && { until: over.iso, date: over.date, minutes: over.minutes, hours: over.hours },
    pick: isOver ? null : pickOf(spray, days, cleared),
    cleared,
    next,
    timed: spray.time?.end != null,
    missing,
    overLabel,
  }
}

function pickOf(spray: SprayEntry, days: readonly number[], cleared: Clearance | null): Follows['pick'] {
  const longest = days.length === 0 ? null : highest(days)
  const byLabel = longest === null ? null : { ...earliestPick(spray, longest), days: longest }
  if (!cleared || (byLabel && byLabel.cautious > cleared.pickFrom)) return byLabel
  return { calendar: cleared.pickFrom, cautious: cleared.pickFrom, days: longest }
}
