import { estimateError, learnedBias } from '../../agronomy/statistics/estimate-error.ts'
import { blockCrop } from '../../facts/crop/estimate.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import type { IsoDate } from '../../records/date.ts'
import { pickedWhole } from './picked-whole.ts'

export type Learned = ReturnType<typeof learnedBias> & { at: 'lag' | 'harvest' | null }

/**
 * What was estimated in each season that has picks, by the growth factor known at the time, against the picks, in
 * kg. Where the block still hangs in part, the season is left out.
 */
export function pastEstimates(ledger: Ledger, block: Named<Block>, until: { season: number; asOf: IsoDate }) {
  return pickedWhole(ledger, block, until).flatMap(({ season, picks, weight: actual }) =>
    (['lag', 'harvest'] as const).flatMap((at) => {
      const { estimate } = blockCrop(ledger, block, { season, asOf: picks[0]!.date, only: at })
      if (estimate === null || estimate <= 0) return []
      return [
        {
          season,
          at,
          estimate,
          actual,
          /** (estimate - actual) / actual */
          error: estimateError({ estimate, actual }).share,
        },
      ]
    }),
  )
}

/** The factor that past estimates would have had to be multiplied by: those near harvest where there are any, else lag. */
export function learned(past: ReturnType<typeof pastEstimates>): Learned {
  const at = past.some((one) => one.at === 'harvest') ? 'harvest' : past.length > 0 ? 'lag' : null
  return { ...learnedBias(past.filter((one) => one.at === at)), at }
}
