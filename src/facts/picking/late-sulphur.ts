import type { Ledger } from '../../ledger/read/ledger.ts'
import { daysBetween, type IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { daysText, upperFirst } from '../sentences.ts'
import { holdsSulphur } from '../spraying/actives.ts'
import { spraysOf } from '../spraying/legal-from.ts'
import type { Asked } from './gate.ts'

/**
 * Days before harvest within which sulphur can be found in the must: a last spray by then left under 10 µg/g
 * (Kwasniewski, Sacks & Wilcox 2014, Am. J. Enol. Vitic. 65:453-462, abstract read).
 */
export const LATE_SULPHUR_DAYS = 35

/**
 * What to do about late sulphur, by whether the must of any block ferments on its skins (the same source): the wine's
 * style decides, or, without one, the colour of the variety.
 */
export function sulphurAdvice({ blocks, varieties }: Ledger, ids: readonly string[]): string {
  const isOnSkins = ids.some((id) => {
    const block = blocks.get(id)
    const variety = varieties.get(block?.variety ?? '')
    // A red variety pressed at once for sparkling or rosé ferments without its skins.
    return (block?.style ?? variety?.style ?? variety?.colour) === 'red'
  })
  return isOnSkins
    ? 'fermentation on the skins nearly triples hydrogen sulphide (rotten egg)'
    : 'let the must settle clear: on the skins, sulphur ferments to hydrogen sulphide (rotten egg)'
}

/** A sentence on sulphur sprayed so close to picking that it can reach the must; null where none was. */
export function lateSulphurNote({ ledger, block, season, asOf }: Asked, picking: IsoDate): string | null {
  const last = spraysOf(ledger, { block: block.id, season, asOf }).findLast(({ products }) =>
    products.some(({ product: id }) => {
      const product = ledger.products.get(id)
      return product !== undefined && holdsSulphur(product)
    }),
  )
  if (!last) return null
  const days = daysBetween(last.date, picking)
  if (days >= LATE_SULPHUR_DAYS) return null
  return `Sulphur was sprayed ${spokenDate(last.date)}, ${daysText(days)} before ${spokenDate(picking)}. Within ${LATE_SULPHUR_DAYS} days it can reach the must. ${upperFirst(sulphurAdvice(ledger, [block.id]))}. Tell whoever makes the wine.`
}
