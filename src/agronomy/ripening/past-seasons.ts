import type { Believed, Parameters } from './ripening-model.ts'
import type { RipeningPrior, Shares } from './ripening-prior.ts'

/** What one past season taught. */
export interface Lesson {
  /** Rate at the prior's level: mean and variance by the season's readings alone; null where they say nothing of it. */
  rate: { mean: number; variance: number } | null
  /** Share of each value of the prior's grid after the season. */
  shares: Record<Taught, number[]>
}

/**
 * What a season teaches beside the rate. Its weather would teach what warmth does, but left the score on simulated seasons
 * as it was (tests/skill), so no weather of past seasons is read.
 */
type Taught = Exclude<keyof Parameters, 'warmth'>

/**
 * How much of what a season taught of the grid's shares is carried on, since the seasons of a block are alike but not the same.
 * Own choice, no source: all of it scores better where they are the same, and worse where they differ.
 */
const CARRIED = 0.75
/** Standard deviation of the rate among blocks of one variety. Own choice, no source. */
const SAME_VARIETY = 0.05
/** The least share of a value in what a season taught, and after all of them: none is ruled out. */
const LEAST_SHARE = 1e-3

/** What a past season's readings taught, from what is believed of it with the plain prior. */
export function lessonOf(believed: readonly Believed[], prior: RipeningPrior): Lesson {
  let mean = 0
  let square = 0
  for (const { share, state, slowing } of believed) {
    const rate = state.rate - slowing * prior.rate.at
    mean += share * rate
    square += share * (rate ** 2 + state.rateRate)
  }
  const after = 1 / (square - mean ** 2)
  const before = 1 / prior.rate.spread ** 2
  const told = after - before
  const sharesOf = (key: Taught) =>
    prior[key].map(([value]) =>
      believed.reduce((sum, point) => sum + (point[key] === value ? point.share : 0), 0),
    )
  return {
    rate: told > 0 ? { mean: (mean * after - prior.rate.mean * before) / told, variance: 1 / told } : null,
    shares: { slowing: sharesOf('slowing'), between: sharesOf('between'), wander: sharesOf('wander') },
  }
}

/**
 * The prior after past seasons. Those of the block say its usual rate, about which seasons vary, and shift the shares of the
 * grid by part of what each taught; those of other blocks of its variety say the rate only, less surely.
 */
export function learn(
  prior: RipeningPrior,
  { own, variety }: { own: readonly Lesson[]; variety: readonly Lesson[] },
): RipeningPrior {
  const { mean, spread, seasons } = prior.rate
  let precision = 1 / (spread ** 2 - seasons ** 2)
  let weighted = mean * precision
  const join = (lessons: readonly Lesson[], apart: number) => {
    const rates = lessons.flatMap(({ rate }) => rate ?? [])
    if (rates.length === 0) return
    const each = rates.map(({ variance }) => 1 / (variance + seasons ** 2))
    const all = each.reduce((sum, one) => sum + one, 0)
    const average = rates.reduce((sum, rate, at) => sum + rate.mean * each[at]!, 0) / all
    // However many seasons, what sets other blocks off from this one remains.
    const known = 1 / (1 / all + apart)
    precision += known
    weighted += average * known
  }
  join(own, 0)
  join(variety, SAME_VARIETY ** 2)
  const learned = {
    ...prior.rate,
    mean: weighted / precision,
    spread: Math.sqrt(1 / precision + seasons ** 2),
  }
  return {
    ...prior,
    rate: learned,
    slowing: shifted(prior, own, 'slowing'),
    between: shifted(prior, own, 'between'),
    wander: shifted(prior, own, 'wander'),
  }
}

function shifted(prior: RipeningPrior, lessons: readonly Lesson[], key: Taught): Shares {
  const raw = prior[key].map(([value, share], at) => {
    // After a season by before it: its likelihood, but for a factor that all values share.
    const likelihoods = lessons.map(
      ({ shares }) => (Math.max(LEAST_SHARE, shares[key][at]!) / share) ** CARRIED,
    )
    return [value, likelihoods.reduce((product, one) => product * one, share)] as const
  })
  const total = raw.reduce((sum, [, share]) => sum + share, 0)
  return raw.map(([value, share]) => [value, Math.max(LEAST_SHARE, share / total)] as const)
}
