import { requireNotNegative, requirePositive } from '../statistics/require-number.ts'

interface PointQuadrat {
  /** Share of insertions that met nothing, 0 to 1; about 0.4 is wanted. */
  gaps: number
  /** Leaves met on one insertion; 1 to 1.5 is wanted. */
  leafLayers: number
  /** Share of bunches met that hang outside, 0 to 1, about 0.6 is wanted; null where none was met. */
  exposure: number | null
}

/**
 * How dense the fruit zone is, from a thin rod put through it at even steps, some fifty times.
 * Source: Smart, by way of wineskills.co.uk.
 *
 * @param options insertions; gaps, those that met nothing; leaves and bunches met; exterior, bunches met first or last
 * @throws RangeError when there is no insertion, a count is negative, or a part exceeds its whole
 */
export function pointQuadrat(options: {
  insertions: number
  gaps: number
  leaves: number
  bunches: number
  exterior: number
}): PointQuadrat {
  const { insertions, gaps, leaves, bunches, exterior } = options
  requirePositive({ insertions })
  requireNotNegative({ gaps, leaves, bunches, exterior })
  if (gaps > insertions || exterior > bunches)
    throw new RangeError('pointQuadrat requires parts that fit into their whole')
  return {
    gaps: gaps / insertions,
    leafLayers: leaves / insertions,
    exposure: bunches === 0 ? null : exterior / bunches,
  }
}
