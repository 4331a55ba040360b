import type { Ledger, SprayEntry } from '../../ledger/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import { daysBeforeHarvest } from './label.ts'
import { earliestPick } from './spray-end.ts'

/** From when a block may be picked, by the sprays in the book. */
export interface LegalFrom {
  /** Latest of the cautious dates; null where no spray has one. */
  date: IsoDate | null
  /** Latest of the dates that count the day of spraying as day 0. */
  calendar: IsoDate | null
  /** The product that decides, its days, and the day it was sprayed. */
  by: { product: string; days: number; sprayed: IsoDate } | null
  /** Products sprayed whose record gives no days before harvest. */
  unknown: string[]
  /** How many sprays of the block there are. */
  sprays: number
}

/** The sprays of a block in a season up to a day, oldest first. */
export function spraysOf(ledger: Ledger, of: { block: string; season: number; asOf: IsoDate }): SprayEntry[] {
  return ledger.sprays.filter(
    (spray) => spray.season === of.season && spray.date <= of.asOf && spray.blocks.includes(of.block),
  )
}

/** When the days before harvest of every product sprayed are over. */
export function legalFrom(ledger: Ledger, sprays: readonly SprayEntry[]): LegalFrom {
  const waits = sprays.flatMap((spray) =>
    spray.products.map((part) => {
      const product = ledger.products.get(part.product)
      const days = product ? daysBeforeHarvest(product, part.for) : null
      return {
        product: part.product,
        sprayed: spray.date,
        days,
        from: days === null ? null : earliestPick(spray, days),
      }
    }),
  )
  const known = waits.flatMap(({ from, days, ...wait }) =>
    from && days !== null ? [{ ...wait, days, ...from }] : [],
  )
  const last = known
    .toSorted((a, b) => (a.cautious < b.cautious ? -1 : a.cautious > b.cautious ? 1 : 0))
    .at(-1)
  const calendar =
    known
      .map((wait) => wait.calendar)
      .sort()
      .at(-1) ?? null
  return {
    date: last?.cautious ?? null,
    calendar,
    by: last ? { product: last.product, days: last.days, sprayed: last.sprayed } : null,
    unknown: [...new Set(waits.filter(({ days }) => days === null).map(({ product }) => product))],
    sprays: sprays.length,
  }
}
