import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { daysText } from '../sentences.ts'
import { type Clearance, clearanceOf, clearedText } from './clearance.ts'
import { daysBeforeHarvest } from './label.ts'
import { type OverLabel, overLabelOf } from './over-label.ts'
import { earliestPick } from './spray-end.ts'

/** When a block may be picked, by the sprays in the ledger. */
export interface LegalFrom {
  /** Latest of the cautious dates; null where no spray has one, or where one was over the label and not cleared. */
  date: IsoDate | null
  /** Latest of the dates that count the day of spraying as day 0. */
  calendar: IsoDate | null
  /**
   * The deciding product: its name, interval in days (null: the label gives none), day of spraying, and who cleared it.
   */
  by: { product: string; name: string; days: number | null; sprayed: IsoDate; cleared?: Clearance } | null
  /** Sprayed products whose record gives no pre-harvest interval. */
  unknown: string[]
  /** Uses over the label that nobody cleared: no date holds until an adviser or the authority names one. */
  overLabel: OverLabel[]
  /** Number of sprays on the block. */
  sprays: number
}

/** The sprays of a block in a season up to a day, oldest first. */
export function spraysOf(ledger: Ledger, of: { block: string; season: number; asOf: IsoDate }): SprayEntry[] {
  return ledger.sprays.filter(
    (spray) => spray.season === of.season && spray.date <= of.asOf && spray.blocks.includes(of.block),
  )
}

/** When the pre-harvest intervals of every product sprayed are over. */
export function legalFrom(ledger: Ledger, sprays: readonly SprayEntry[]): LegalFrom {
  const waits = sprays.flatMap((spray) =>
    spray.products.map((part) => {
      const product = ledger.products.get(part.product)
      const isOver = overLabelOf(ledger, spray).some((one) => one.product === part.product)
      const cleared = isOver ? clearanceOf(spray) : null
      const days = product ? daysBeforeHarvest(product, part.for) : null
      return { spray, product: part.product, name: product?.name ?? part.product, days, cleared }
    }),
  )
  const known = waits.flatMap(({ spray, product, name, days, cleared }) => {
    const by = { product, name, days, sprayed: spray.date }
    const byLabel = days === null ? null : earliestPick(spray, days)
    if (!cleared) return byLabel ? [{ by, ...byLabel }] : []
    // An adviser's day replaces the label's, but never comes before it.
    const from = byLabel && byLabel.cautious > cleared.pickFrom ? byLabel.cautious : cleared.pickFrom
    return [{ by: { ...by, cleared }, calendar: from, cautious: from }]
  })
  const last = known
    .toSorted((a, b) => (a.cautious < b.cautious ? -1 : a.cautious > b.cautious ? 1 : 0))
    .at(-1)
  const overLabel = sprays.flatMap((spray) => (clearanceOf(spray) ? [] : overLabelOf(ledger, spray)))
  const isOver = overLabel.length > 0
  const calendar = known.map((wait) => wait.calendar).sort()
  return {
    date: isOver ? null : (last?.cautious ?? null),
    calendar: isOver ? null : (calendar.at(-1) ?? null),
    by: last && !isOver ? last.by : null,
    unknown: [
      ...new Set(
        waits.filter(({ days, cleared }) => days === null && !cleared).map(({ product }) => product),
      ),
    ],
    overLabel,
    sprays: sprays.length,
  }
}

/** What to do where the pre-harvest interval of products isn't recorded, in two sentences. */
export const unknownIntervalText = (products: string): string =>
  `The pre-harvest interval (PHI) of ${products} is not recorded. Read the label before you set a date.`

/** `Sulphur 80, sprayed Sun 14 Jun, 21 days`; where it was cleared, by whom instead of the days. */
export const waitText = ({ name, days, sprayed, cleared }: NonNullable<LegalFrom['by']>): string =>
  `${name}, sprayed ${spokenDate(sprayed)}, ${cleared ? clearedText(cleared) : `PHI ${daysText(days!)}`}`
