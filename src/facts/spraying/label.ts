import { highest } from '../../agronomy/statistics/extremes.ts'
import type { Product, Use } from '../../records/kinds/product.ts'
import type { Quantity, Range } from '../../records/quantity.ts'

/** A use on the label with its index in the product's record. */
interface LabelUse {
  use: Use
  index: number
}

/** The label's uses for a spray's targets; all uses where the entry names no target. */
export function usesFor(product: Product, targets: readonly string[] | undefined): LabelUse[] {
  return product.uses
    .map((use, index) => ({ use, index }))
    .filter(({ use }) => targets === undefined || targets.includes(use.against))
}

/** A label limit to compare a dose with. */
export interface DoseLimit {
  form: 'rate' | 'concentration' | 'max_rate'
  against: string
  low: number
  high: number
  unit: string
  /** Path of the limit in the product's record. */
  path: (string | number)[]
  /** The label's minimum water in L/ha, where the concentration was calculated from a dose for ground area. */
  inWater?: number
}

/** By product and targets: calculating them anew would take a fifth of the time and memory of `check`. */
const limits = new WeakMap<Product, Map<string, readonly DoseLimit[]>>()

/** Every dose limit on the label for a spray's targets, calculated once for a product. */
export function limitsFor(product: Product, targets: readonly string[] | undefined): readonly DoseLimit[] {
  const known = limits.get(product) ?? new Map<string, readonly DoseLimit[]>()
  limits.set(product, known)
  const key = JSON.stringify(targets) ?? ''
  const found = known.get(key) ?? doseLimits(usesFor(product, targets))
  known.set(key, found)
  return found
}

/** Every dose limit of the given uses, in whatever form the label gives it. */
export function doseLimits(uses: readonly LabelUse[]): DoseLimit[] {
  return uses.flatMap(({ use, index }) => {
    const base = { against: use.against }
    const limits: DoseLimit[] = []
    const add = (form: DoseLimit['form'], range: Range) =>
      limits.push({ ...base, form, ...range, path: ['uses', index, form] })
    if (use.rate) add('rate', use.rate)
    if (use.concentration) add('concentration', use.concentration)
    if (use.max_rate) add('max_rate', { low: 0, high: use.max_rate.value, unit: use.max_rate.unit })
    return limits
  })
}

/**
 * The highest concentrations implied by the label's doses for ground area in its minimum water: the limit for a spot
 * spray whose extent wasn't recorded. None where the label names no water.
 */
export function impliedLimits(product: Product, targets: readonly string[] | undefined): DoseLimit[] {
  const least = product.water?.low
  if (!least) return []
  return limitsFor(product, targets).flatMap((limit) => {
    if (limit.form === 'concentration' || limit.unit.endsWith('leaf wall')) return []
    const unit = limit.unit === 'kg/ha' ? 'g/L' : 'mL/L'
    return [
      { ...limit, form: 'concentration', low: 0, high: (limit.high * 1000) / least, unit, inWater: least },
    ]
  })
}

/** A dose in each form that a label may limit; null where it can't be calculated. */
export interface DoseForms {
  perHa: Quantity | null
  perLeafWall: Quantity | null
  /** In the volume that the label means: dilute where the spray was concentrated, else as applied. */
  concentration: Quantity | null
}

/** The dose in the unit of a limit, or null where it can't be calculated in that form. */
export function inFormOf(limit: DoseLimit, dose: DoseForms): number | null {
  const pick = limit.unit.endsWith('leaf wall')
    ? dose.perLeafWall
    : limit.form === 'concentration'
      ? dose.concentration
      : dose.perHa
  if (!pick) return null
  if (pick.unit === limit.unit) return pick.value
  return limit.unit === '%' ? pick.value / 10 : null
}

/** The growth stages in which the label allows a use, and their path in the record; null where it names none. */
export function stagesOf(
  product: Product,
  { use, index }: LabelUse,
): { low: number; high: number; path: (string | number)[] } | null {
  const last = product.not_after
  if (use.stages && (last === undefined || use.stages.high <= last))
    return { low: use.stages.low, high: use.stages.high, path: ['uses', index, 'stages'] }
  return last === undefined ? null : { low: use.stages?.low ?? 0, high: last, path: ['not_after'] }
}

/**
 * The lowest dose of the label against a disease, kg or L per ha, a concentration in the least water allowed; 0 where
 * the label doesn't say.
 */
export function leastPerHa(product: Product, disease: string): number {
  const each = usesFor(product, [disease]).map(({ use: { rate, concentration } }) => {
    if (rate && !rate.unit.endsWith('leaf wall')) return rate.low
    return concentration && concentration.unit !== '%'
      ? (concentration.low * (product.water?.low ?? 0)) / 1000
      : 0
  })
  return each.length === 0 ? 0 : highest(each)
}

/**
 * The label's pre-harvest interval, days: the longest of the given uses, else the product's; null where it gives none.
 */
export function daysBeforeHarvest(product: Product, targets: readonly string[] | undefined): number | null {
  const days = usesFor(product, targets).map(({ use }) => use.before_harvest ?? product.before_harvest)
  const known = (days.length === 0 ? [product.before_harvest] : days).filter((each) => each !== undefined)
  return known.length === 0 ? null : highest(known)
}

/** Path of the deciding pre-harvest interval in the record. */
export function daysBeforeHarvestPath(
  product: Product,
  targets: readonly string[] | undefined,
): (string | number)[] {
  const days = daysBeforeHarvest(product, targets)
  const own = usesFor(product, targets).find(({ use }) => use.before_harvest === days)
  return own ? ['uses', own.index, 'before_harvest'] : ['before_harvest']
}

/** Minimum days between applications by the label, the longest of the given uses; null where it gives none. */
export function shortestInterval(
  product: Product,
  targets: readonly string[] | undefined,
): { days: number; path: (string | number)[] } | null {
  const known = usesFor(product, targets).filter(({ use }) => use.interval !== undefined)
  const longest = known.toSorted((a, b) => b.use.interval!.low - a.use.interval!.low)[0]
  return longest ? { days: longest.use.interval!.low, path: ['uses', longest.index, 'interval'] } : null
}
