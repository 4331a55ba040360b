import type { CoverDay } from '../../facts/protection/day.ts'
import { daysBeforeHarvest } from '../../facts/spraying/label.ts'
import { latestSpray } from '../../facts/spraying/spray-end.ts'
import type { BlockWindow } from '../../facts/window/block-window.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'

/** How the pre-harvest intervals limit a block's next spray. */
export type HarvestStop = ReturnType<typeof harvestStop>

export type PickingWindow = Pick<BlockWindow, 'earliest' | 'legalFrom' | 'picked' | 'why'>

/** Compares the next spray with the first day of picking, counting full waiting days for a spray of unknown hour. */
export function harvestStop(
  ledger: Ledger,
  from: {
    window: PickingWindow
    disease: Disease
    asOf: IsoDate
    today: Pick<CoverDay, 'covered' | 'daysLeft'>
  },
) {
  const { window, disease, asOf, today } = from
  const nextDue = today.covered === true ? addDays(asOf, (today.daysLeft ?? 0) + 1) : asOf
  const dates = [window.earliest, window.legalFrom, asOf].filter((date) => date !== null).sort()
  const picking = window.earliest === null ? null : dates.at(-1)!
  const products = [...ledger.products.values()]
    .filter(({ uses }) => uses.some(({ against }) => against === disease))
    .map((product) => {
      const days = daysBeforeHarvest(product, [disease])
      const lastDay = days === null || picking === null ? null : latestSpray(picking, days)
      return { product: product.id, lastDay }
    })
    .sort((a, b) => ((a.lastDay ?? '') > (b.lastDay ?? '') ? -1 : 1))
  return {
    /**
     * First day on which picking may begin: of the window, of the sprays made, or today, the latest; null where
     * unknown.
     */
    picking,
    /** Why it is unknown. */
    why: picking === null ? (window.why ?? 'no window') : null,
    /** When the next spray is due: the day after protection ends, or today where the block is unprotected. */
    nextDue,
    /**
     * The ledger's products against the disease, by the last day on which each may be sprayed; null where its days are
     * unknown.
     */
    products,
    /** The last day of any of them; null where unknown. */
    lastDay: products[0]?.lastDay ?? null,
    /** Those that may still be sprayed when the next is due. */
    inTime: products.flatMap(({ product, lastDay }) =>
      lastDay !== null && lastDay >= nextDue ? [product] : [],
    ),
  }
}
