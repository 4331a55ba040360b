import type { Believed, Parameters } from './ripening-model.ts'
import type { RipeningPrior, Shares } from './ripening-prior.ts'

interface Rate {
  mean: number
  variance: number
}

/** What one past season taught. */
export interface Lesson {
  /**
   * Rate at the prior's level for each slowing of the grid, since the two go together: the same samples rose fast and
   * slowed, or slowly and steadily. Mean and variance by the season's readings alone; null where they say nothing of
   * it.
   */
  rates: (Rate | null)[]
  /** Share of each value of the prior's grid after the season. */
  shares: Record<Taught, number[]>
}

/**
 * What a season teaches beside the rate. Its weather would teach what warmth does, but left the score on simulated
 * seasons as it was (tests/skill), so no weather of past seasons is read.
 */
type Taught = Exclude<keyof Parameters, 'warmth'>

/**
 * How much of what a season taught of the grid's shares is carried on, since the seasons of a block are alike but not
 * the same. Own choice, no source: all of it scores better where they are the same, and worse where they differ.
 */
const CARRIED = 0.75
/**
 * Standard deviation among seasons of one block of m, the rate before any slowing, as a share of it: the more a block
 * slows, the more its rate near the target differs from season to season. Own choice, no source.
 */
export const SEASONS_DIFFER = 0.05
/**
 * Shares of swings where past seasons of the block are known. Without them, large swings stand for a course unlike the
 * model's too; past seasons have shown it. Own choice, no source.
 */
const KNOWN_WANDER = [0.9, 0.1]
/** Standard deviation of the rate among blocks of one variety. Own choice, no source. */
const SAME_VARIETY = 0.05
/** Smallest share of a value after one season and after all: none is ruled out. */
const LEAST_SHARE = 1e-3

/** What a past season's readings teach, from its posterior under the plain prior. */
export function lessonOf(believed: readonly Believed[], prior: RipeningPrior): Lesson {
  const sharesOf = (key: Taught) =>
    prior[key].map(([value]) =>
      believed.reduce((sum, point) => sum + (point[key] === value ? point.share : 0), 0),
    )
  return {
    rates: prior.slowing.map(([slowing]) => rateAt(slowing, believed, prior)),
    shares: { slowing: sharesOf('slowing'), between: sharesOf('between'), wander: sharesOf('wander') },
  }
}

/** The rate that a season taught if it slowed by so much. */
function rateAt(slowing: number, believed: readonly Believed[], prior: RipeningPrior): Rate | null {
  let [total, sum, square] = [0, 0, 0]
  for (const { share, state, slowing: own } of believed) {
    if (own !== slowing) continue
    const rate = state.rate - slowing * prior.rate.at
    total += share
    sum += share * rate
    square += share * (rate ** 2 + state.rateRate)
  }
  if (total === 0) return null
  const mean = sum / total
  const after = 1 / (square / total - mean ** 2)
  const before = 1 / prior.rate.spread ** 2
  const told = after - before
  return told > 0 ? { mean: (mean * after - prior.rate.mean * before) / told, variance: 1 / told } : null
}

/**
 * The prior after past seasons. Those of the block say its usual rate, about which seasons vary, and shift the shares
 * of the grid by part of what each taught; those of other blocks of its variety say the rate only, less surely.
 */
export function learn(
  prior: RipeningPrior,
  { own, variety }: { own: readonly Lesson[]; variety: readonly Lesson[] },
): RipeningPrior {
  const ratesAt = (lessons: readonly Lesson[], at: number) => lessons.flatMap(({ rates }) => rates[at] ?? [])
  return {
    ...prior,
    learned: new Map(
      prior.slowing.map(([slowing], at) => [
        slowing,
        joined(prior.rate, slowing, { own: ratesAt(own, at), variety: ratesAt(variety, at) }),
      ]),
    ),
    slowing: shifted(prior, own, 'slowing'),
    between: shifted(prior, own, 'between'),
    wander: shifted(prior, own, 'wander', own.length > 0 ? KNOWN_WANDER : undefined),
  }
}

function joined(
  { at, mean, spread }: RipeningPrior['rate'],
  slowing: number,
  { own, variety }: { own: readonly Rate[]; variety: readonly Rate[] },
): { mean: number; spread: number } {
  const seasons = SEASONS_DIFFER * (mean + slowing * at)
  let precision = 1 / (spread ** 2 - seasons ** 2)
  let weighted = mean * precision
  const join = (rates: readonly Rate[], apart: number) => {
    if (rates.length === 0) return
    const each = rates.map(({ variance }) => 1 / (variance + seasons ** 2))
    const all = each.reduce((sum, one) => sum + one, 0)
    const average = rates.reduce((sum, rate, at) => sum + rate.mean * each[at]!, 0) / all
    // However many seasons there are, the difference between blocks remains.
    const known = 1 / (1 / all + apart)
    precision += known
    weighted += average * known
  }
  join(own, 0)
  join(variety, SAME_VARIETY ** 2)
  return { mean: weighted / precision, spread: Math.sqrt(1 / precision + seasons ** 2) }
}

function shifted(
  prior: RipeningPrior,
  lessons: readonly Lesson[],
  key: Taught,
  from: readonly number[] = prior[key].map(([, share]) => share),
): Shares {
  const raw = prior[key].map(([value, share], at) => {
    // Posterior over prior: the season's likelihood, up to a factor common to all values.
    const likelihoods = lessons.map(
      ({ shares }) => (Math.max(LEAST_SHARE, shares[key][at]!) / share) ** CARRIED,
    )
    return [value, likelihoods.reduce((product, one) => product * one, from[at]!)] as const
  })
  const total = raw.reduce((sum, [, share]) => sum + share, 0)
  return raw.map(([value, share]) => [value, Math.max(LEAST_SHARE, share / total)] as const)
}
