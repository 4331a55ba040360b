import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { daysBetween } from '../../records/date.ts'
import { overlap, statedTargets } from '../judged.ts'
import type { Application } from './applications.ts'
import { shortestInterval } from './label.ts'

/** An application that is one too many in its season, for the product or for one of its uses. */
export interface CountOver {
  count: number
  most: number
  /** ` against powdery` where the limit is that of a use; else empty. */
  whose: string
  path: (string | number)[]
}

/**
 * Whether an application is one more than the label allows in a season.
 * @param upTo the applications of the product on the same vines in that season, this one last
 */
export function countOver(one: Application, upTo: readonly Application[]): CountOver | null {
  const { product } = one
  const limits = [
    { most: product.max_per_season, path: ['max_per_season'], count: upTo.length, whose: '' },
    ...product.uses.map((use, index) => ({
      most: one.targets.includes(use.against) ? use.max_per_season : undefined,
      path: ['uses', index, 'max_per_season'],
      count: upTo.filter(({ targets }) => targets.includes(use.against)).length,
      whose: ` against ${use.against}`,
    })),
  ]
  for (const { most, count, whose, path } of limits)
    if (most !== undefined && count > most) return { most, count, whose, path }
  return null
}

/**
 * Product applied in a season, kg or L for a hectare of block, where it is above the label's `max_total`; null where it
 * isn't, or where a dose is unknown.
 * @param upTo the applications of the product on the same vines in that season, this one last
 */
export function totalOver(
  { product }: Application,
  upTo: readonly Application[],
): { total: number; most: number; unit: string } | null {
  const most = product.max_total
  if (!most || upTo.some(({ perHa }) => perHa?.unit !== most.unit)) return null
  const total = upTo.reduce(
    (sum, { perHa, share, spray }) => sum + perHa!.value * (spray.rows ? 1 : (share ?? 1)),
    0,
  )
  return exceeds(total, most.value) ? { total, most: most.value, unit: most.unit } : null
}

/**
 * Earlier applications of the product on the same vines that lie nearer than the label's shortest interval. Those of the
 * same day are no interval.
 */
export function withinInterval(
  one: Application,
  earlier: readonly Application[],
): { days: number; asked: number; before: Application[] } | null {
  const asked = shortestInterval(one.product, statedTargets(one))?.days
  if (asked === undefined) return null
  const before = earlier.filter(({ spray }) => {
    const days = daysBetween(spray.date, one.spray.date)
    return days > 0 && days < asked && overlap(spray, one.spray)
  })
  const last = before.at(-1)
  return last ? { days: daysBetween(last.spray.date, one.spray.date), asked, before } : null
}
