import type { BlockTotals } from '../../facts/spraying/season-totals.ts'

/** The blocks of which a vine can have had more copper than the mean, or of which that is unknown. */
export const mostOf = (blocks: readonly BlockTotals[]): BlockTotals[] =>
  blocks.filter(
    ({ copper: { season, most } }) =>
      season !== null && season.value > 0 && (most === null || most.value > season.value * 1.005),
  )
