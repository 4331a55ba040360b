import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import { daysBeforeHarvest } from './label.ts'
import { type OverLabel, overLabelOf } from './over-label.ts'
import { earliestPick } from './spray-end.ts'

/** From when a block may be picked, by the sprays in the book. */
export interface LegalFrom {
  /** Latest of the cautious dates; null where no spray has one, or where one was over the label. */
  date: IsoDate | null
  /** Latest of the dates that count the day of spraying as day 0. */
  calendar: IsoDate | null
  /** The product that decides, its days, and the day it was sprayed. */
  by: { product: string; days: number; sprayed: IsoDate } | null
  /** Products sprayed whose record gives no days before harvest. */
  unknown: string[]
  /** What was over the label: no date holds until an adviser or the authority has named one. */
  overLabel: OverLabel[]
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
      return { spray, product: part.product, days: product ? daysBeforeHarvest(product, part.for) : null }
    }),
  )
  const known = waits.flatMap(({ spray, product, days }) =>
    days === null ? [] : [{ product, days, sprayed: spray.date, ...earliestPick(spray, days) }],
  )
  const last = known.reduce<(typeof known)[number] | null>(
    (latest, one) => (latest && latest.cautious > one.cautious ? latest : one),
    null,
  )
  const overLabel = sprays.flatMap((spray) => overLabelOf(ledger, spray))
  const isOver = overLabel.length > 0
  const calendar = known.map((wait) => wait.calendar).sort()
  return {
    date: isOver ? null : (last?.cautious ?? null),
    calendar: isOver ? null : (calendar.at(-1) ?? null),
    by: last && !isOver ? { product: last.product, days: last.days, sprayed: last.sprayed } : null,
    unknown: [...new Set(waits.filter(({ days }) => days === null).map(({ product }) => product))],
    overLabel,
    sprays: sprays.length,
  }
}
