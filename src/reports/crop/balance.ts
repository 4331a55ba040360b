import { ravazIndex, usualCropLoad } from '../../agronomy/crop/ravaz-index.ts'
import { vinesOf } from '../../facts/block-size.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import type { IsoDate } from '../../records/date.ts'
import { pickedWhole } from './picked-whole.ts'

/**
 * The crop load of each season that was picked whole and whose prunings were weighed in the winter after it, which stand
 * in the next season's work; the prunings of any other winter say nothing of it.
 */
export function balanceOf(ledger: Ledger, block: Named<Block>, until: { season: number; asOf: IsoDate }) {
  const { alive } = vinesOf(block)
  return pickedWhole(ledger, block, until).flatMap(({ season, weight }) => {
    const weighed = ledger.work.findLast(
      (entry) =>
        entry.block === block.id &&
        entry.season === season + 1 &&
        entry.date <= until.asOf &&
        entry.prunings !== undefined,
    )
    if (!weighed || alive <= 0) return []
    const fruit = weight / alive
    const prunings = weighed.prunings!
    return [
      {
        season,
        /** Day on which the prunings were weighed. */
        pruned: weighed.date,
        /** Of one vine. */
        fruit: { value: fruit, unit: 'kg' },
        prunings: { value: prunings, unit: 'kg' },
        pruningsPerMetre: { value: prunings / block.vine_spacing, unit: 'kg/m' },
        /** kg of fruit for each kg of prunings: the Ravaz index. */
        cropLoad: ravazIndex({ fruit, prunings }),
        /** Span of the index that is usual. */
        usual: usualCropLoad,
      },
    ]
  })
}
