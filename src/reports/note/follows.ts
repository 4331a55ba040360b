import { highest } from '../../agronomy/statistics/extremes.ts'
import type { Clearance } from '../../facts/spraying/clearance.ts'
import { shortestInterval, usesFor } from '../../facts/spraying/label.ts'
import { keepOutOf } from '../../facts/spraying/re-entry.ts'
import { earliestPick } from '../../facts/spraying/spray-end.ts'
import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import { addDays, type IsoDate } from '../../records/date.ts'

/** What follows from a spray, by the labels of its products. */
export type Follows = ReturnType<typeof followsFrom>

/** Calculates what follows from a spray. Without a clock time it counts from the end of the day. */
export function followsFrom(spray: SprayEntry, ledger: Ledger) {
  const missing: string[] = []
  const days: number[] = []
  const next: { product: string; name: string; date: IsoDate | null; days: number | null }[] = []
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
    if (known.length < waits.length) missing.push(`the pre-harvest interval (PHI) of ${product.name}`)
    if (known.length > 0) days.push(highest(known))
    if (product.re_entry === undefined) missing.push(`the re-entry interval (REI) of ${product.name}`)
    const interval = shortestInterval(product, part.for)
    next.push({
      product: part.product,
      name: product.name,
      date: interval && addDays(spray.date, Math.ceil(interval.days)),
      days: interval?.days ?? null,
    })
  }
  const { over, overLabel } = keepOutOf(ledger, spray)
  const isOver = overLabel.length > 0
  const cleared = over?.cleared ?? null
  return {
    /**
     * When people may enter again, local time with offset, and its hours (null: until dry); null where no product says,
     * or over the label.
     */
    reEntry: over && { until: over.iso, date: over.date, minutes: over.minutes, hours: over.hours },
    /**
     * From when picking is allowed: the date counted in days, and the cautious one after full days; null over the
     * label.
     */
    pick: isOver ? null : pickOf(spray, days, cleared),
    /** Who cleared a spray that was over the label; the days above are then those that they named, or later. */
    cleared,
    /** Earliest next application of each product; null where its label gives no interval. */
    next,
    /** Whether a clock time is written; else the waiting times count from the end of the day. */
    timed: spray.time?.end != null,
    /** What the products' records don't say, so that a figure above may come too early. */
    missing,
    /** What was over the label: no waiting time holds for it. */
    overLabel,
  }
}

function pickOf(spray: SprayEntry, days: readonly number[], cleared: Clearance | null) {
  const longest = days.length === 0 ? null : highest(days)
  const byLabel = longest === null ? null : { ...earliestPick(spray, longest), days: longest }
  if (!cleared || (byLabel && byLabel.cautious > cleared.pickFrom)) return byLabel
  return { calendar: cleared.pickFrom, cautious: cleared.pickFrom, days: longest }
}
