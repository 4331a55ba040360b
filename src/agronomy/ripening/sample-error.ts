/** The size and spread of a sample. */
interface SampleSize {
  /** Berries in it; undefined where not written. */
  berries?: number | undefined
  /** Standard deviation between its readings, and how many there are, where there are three at least. */
  readings?: { sd: number; n: number } | undefined
}

/** Berries taken where none are written. Own choice, no source. */
export const USUAL_BERRIES = 60
/**
 * Degrees of freedom given to the usual spread between berries when pooled with a sample's own. Own choice, no source.
 */
const USUAL_WEIGHT = 4

/**
 * Variance of a sample's mean by the berries in it: the usual spread between berries over their number, joined with
 * what the sample's own readings show.
 *
 * @param within standard deviation between the berries of a block
 */
export function sampleVariance({ berries = USUAL_BERRIES, readings }: SampleSize, within: number): number {
  const usual = within ** 2 / berries
  if (!readings || readings.n < 3) return usual
  const freedom = readings.n - 1
  return (USUAL_WEIGHT * usual + (freedom * readings.sd ** 2) / readings.n) / (USUAL_WEIGHT + freedom)
}
