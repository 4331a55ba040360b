import { normalQuantile } from '../statistics/normal.ts'
import { requirePositive } from '../statistics/require-number.ts'

/**
 * Factor from a bunch's weight at the lag phase to that at harvest. 2 is the weight at half of the final one (Wolfe,
 * Oregon State; Fiola, Univ. Maryland); the range stands for 60 and 40 % of it (de la Fuente et al. 2015, OENO One 49).
 * It is not fixed: it moves with variety, clone and a wet or dry season.
 */
const defaultGrowthFactor = { value: 2, low: 1 / 0.6, high: 2.5 } as const

const normal90 = normalQuantile(0.95)

/** Coefficient of variation of the default, its range read as a 90 % interval: about 13 %. Our reading, no source. */
const defaultGrowthVariation =
  (defaultGrowthFactor.high - defaultGrowthFactor.low) / (2 * normal90 * defaultGrowthFactor.value)

/** How many seasons' worth of weight the default's variation keeps beside the block's own. Our choice, no source. */
const defaultSeasons = 4

export interface GrowthFactor {
  value: number
  /** Ends of a 90 % range for one season. */
  low: number
  high: number
  /** Coefficient of variation of the coming season's factor, 0 to 1. */
  cv: number
  seasons: number
  basis: 'own' | 'default' | 'none-needed'
}

/** Factor of bunches weighed at harvest: 1, with nothing left to grow. */
export const factorAtHarvest: GrowthFactor = {
  value: 1,
  low: 1,
  high: 1,
  cv: 0,
  seasons: 0,
  basis: 'none-needed',
}

/**
 * Growth factor of a block: the mean of its own seasons' harvest weight over lag weight, else the default.
 *
 * The variation of own seasons is pooled with the default's, which counts as four seasons, since two or three seasons
 * say little about how much they vary; and it is that of one coming season, sqrt(1 + 1/n) wider than the seasons' own.
 *
 * @param seasons mean bunch weights of each past season in kg (any one unit will do)
 * @throws RangeError when a weight is not above zero
 */
export function growthFactor(seasons: readonly { lagWeight: number; harvestWeight: number }[]): GrowthFactor {
  for (const { lagWeight, harvestWeight } of seasons) requirePositive({ lagWeight, harvestWeight })
  const n = seasons.length
  if (n === 0) return { ...defaultGrowthFactor, cv: defaultGrowthVariation, seasons: 0, basis: 'default' }
  const ratios = seasons.map(({ lagWeight, harvestWeight }) => harvestWeight / lagWeight)
  const value = ratios.reduce((sum, ratio) => sum + ratio, 0) / n
  const own = ratios.reduce((sum, ratio) => sum + (ratio / value - 1) ** 2, 0)
  const pooled = (defaultSeasons * defaultGrowthVariation ** 2 + own) / (defaultSeasons + n - 1)
  const cv = Math.sqrt(pooled * (1 + 1 / n))
  const half = normal90 * cv * value
  return { value, low: Math.max(0, value - half), high: value + half, cv, seasons: n, basis: 'own' }
}
