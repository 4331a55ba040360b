import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { daysBetween } from '../../records/date.ts'
import { overlap, statedTargets } from '../judged.ts'
import type { Application } from './applications.ts'
import { shortestInterval } from './label.ts'

/** An application beyond the number allowed in its season, for the product or one of its uses. */
interface CountOver {
  count: number
  most: number
  /** ` against powdery` where the limit belongs to a use; else empty. */
  whose: string
  path: (string | number)[]
}

/** Applications of a product in a season, added up. */
export interface Applied {
  count: number
  /** Applications against each target. */
  against: Map<string, number>
  /** kg or L per ha of block, in the unit of the label's `max_total`; null where a dose is unknown. */
  total: number | null
}

const nothing = (): Applied => ({ count: 0, against: new Map(), total: 0 })

/** Adds one application. */
function addTo(applied: Applied, { product, targets, perHa, share, spray }: Application): void {
  applied.count += 1
  for (const target of new Set(targets)) applied.against.set(target, (applied.against.get(target) ?? 0) + 1)
  if (!perHa || perHa.unit !== product.max_total?.unit) applied.total = null
  else if (applied.total !== null) applied.total += perHa.value * (isOfVines(spray) ? 1 : (share ?? 1))
}

/** Whether the treated vines got the full dose, so that some can have had as much as all such sprays together. */
const isOfVines = ({ rows, vines, method }: Application['spray']) =>
  rows !== undefined || vines !== undefined || method === 'spot'

/** Adds up several sums of one product. */
function together(parts: readonly Applied[]): Applied {
  const all = nothing()
  for (const { count, against, total } of parts) {
    all.count += count
    for (const [target, times] of against) all.against.set(target, (all.against.get(target) ?? 0) + times)
    all.total = all.total === null || total === null ? null : all.total + total
  }
  return all
}

/**
 * The count limit of the label that an application exceeds in a season; null where none.
 * @param upTo the product's applications on the same vines in that season, including this one
 */
export function countOver({ product, targets }: Application, upTo: Applied): CountOver | null {
  const limits = [
    { most: product.max_per_season, path: ['max_per_season'], count: upTo.count, whose: '' },
    ...product.uses.map((use, index) => ({
      most: targets.includes(use.against) ? use.max_per_season : undefined,
      path: ['uses', index, 'max_per_season'],
      count: upTo.against.get(use.against) ?? 0,
      whose: ` against ${use.against}`,
    })),
  ]
  for (const { most, count, whose, path } of limits)
    if (most !== undefined && count > most) return { most, count, whose, path }
  return null
}

/**
 * Product applied in a season, kg or L per ha of block, where it is above the label's `max_total`; null where it
 * isn't, or where a dose is unknown.
 * @param upTo the product's applications on the same vines in that season, including this one
 */
export function totalOver(
  { product }: Application,
  { total }: Applied,
): { total: number; most: number; unit: string } | null {
  const most = product.max_total
  if (!most || total === null) return null
  return exceeds(total, most.value) ? { total, most: most.value, unit: most.unit } : null
}

/**
 * Earlier applications of the product on the same vines within the label's minimum interval. Those on
 * the same day don't count.
 * @param list applications of the product in the block, oldest first; `at` is the place of the one asked for
 */
export function withinInterval(
  list: readonly Application[],
  at: number,
): { days: number; asked: number; before: Application[] } | null {
  const one = list[at]!
  const asked = shortestInterval(one.product, statedTargets(one))?.days
  if (asked === undefined) return null
  const since = (other: Application) => daysBetween(other.spray.date, one.spray.date)
  const before: Application[] = []
  for (let back = at - 1; back >= 0; back--) {
    const other = list[back]!
    const days = since(other)
    if (days >= asked) break
    if (days > 0 && overlap(other.spray, one.spray)) before.push(other)
  }
  const [last] = before
  return last ? { days: since(last), asked, before: before.toReversed() } : null
}

/**
 * Running sums on the same vines up to each application, called for each, oldest first. The sums are kept for
 * each sprayed part of the block, so that no application has to go through all earlier ones.
 */
export function runningSums(): (one: Application) => Applied {
  const parts = new Map<string, { spray: Application['spray']; applied: Applied }>()
  return (one) => {
    const { rows } = one.spray
    const extent = rows ? `${rows.low}-${rows.high}` : 'all'
    const part = parts.get(extent) ?? { spray: one.spray, applied: nothing() }
    addTo(part.applied, one)
    parts.set(extent, part)
    return together(
      [...parts.values()].filter(({ spray }) => overlap(spray, one.spray)).map(({ applied }) => applied),
    )
  }
}
