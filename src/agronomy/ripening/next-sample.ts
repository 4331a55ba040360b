import type { Season } from './chance-curve.ts'
import { MEMORY, nextDay, paceOn } from './ripening-model.ts'

/** Sizes of a sample that are weighed, in berries. */
const SIZES = [50, 100, 150, 200]
/** Days by which a larger sample must narrow the window further to be worth it. Own choice, no source. */
const WORTH = 0.5

/**
 * By how much one more sample would narrow a window, and how many berries are worth taking: the variance of the mean on
 * the likely day, before and after a reading on the day of sampling (which no reading's value changes in a linear
 * Gaussian model, Durbin & Koopman 2012, section 4.3), over the whole grid.
 *
 * @param options day of sampling, not before the last reading; likely, the day on which the target is likely reached;
 *   width of the window, days
 */
export function worthOfSample(
  { readings, believed, prior, warmth }: Season,
  { day, likely, width }: { day: number; likely: number; width: number },
): { berries: number; narrowsDays: number } {
  const from = readings.at(-1)!.day
  const until = Math.max(day, likely)
  const points = believed.map((point) => {
    const state = { ...point.state }
    let then = { mean: state.level, variance: state.levelLevel }
    let [withLevel, withSwing, withRate] = [0, 0, 0]
    for (let at = from; at <= until; at++) {
      if (at === day) {
        then = { mean: state.level, variance: state.levelLevel }
        ;[withLevel, withSwing, withRate] = [state.levelLevel, state.levelSwing, state.levelRate]
      }
      if (at === until) break
      const pace = paceOn(point.warmth, warmth(at))
      withLevel = (1 - pace * point.slowing) * withLevel + pace * (withSwing + withRate)
      withSwing *= MEMORY
      nextDay(state, pace, point, prior)
    }
    return { share: point.share, then, mean: state.level, variance: state.levelLevel, covariance: withLevel }
  })
  const average = (of: (point: (typeof points)[number]) => number) =>
    points.reduce((sum, point) => sum + point.share * of(point), 0)
  const [early, late] = [average(({ then }) => then.mean), average(({ mean }) => mean)]
  const sampled = average(({ then }) => then.variance + (then.mean - early) ** 2)
  const reached = average(({ mean, variance }) => variance + (mean - late) ** 2)
  const both = average(({ then, mean, covariance }) => covariance + (then.mean - early) * (mean - late))
  const between = believed.reduce((sum, point) => sum + point.share * point.between ** 2, 0)
  const narrowed = (berries: number) => {
    const left = 1 - both ** 2 / (reached * (sampled + between + prior.within ** 2 / berries))
    return width * (1 - Math.sqrt(Math.max(0, left)))
  }
  const at = SIZES.findIndex((berries, index) => {
    const next = SIZES[index + 1]
    return next === undefined || narrowed(next) - narrowed(berries) < WORTH
  })
  return { berries: SIZES[at]!, narrowsDays: narrowed(SIZES[at]!) }
}
