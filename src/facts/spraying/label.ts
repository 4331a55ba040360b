import { highest } from '../../agronomy/statistics/extremes.ts'
import type { Product, Use } from '../../records/product.ts'
import type { Quantity, Range } from '../../records/quantity.ts'

/** A use of the label with its place in the list of the product's record. */
interface LabelUse {
  use: Use
  index: number
}

/** The label's uses for what a spray was against; all of them where the entry doesn't say. */
export function usesFor(product: Product, targets: readonly string[] | undefined): LabelUse[] {
  return product.uses
    .map((use, index) => ({ use, index }))
    .filter(({ use }) => targets === undefined || targets.includes(use.against))
}

/** One limit of the label that a dose is held against. */
export interface DoseLimit {
  form: 'rate' | 'concentration' | 'max_rate'
  against: string
  low: number
  high: number
  unit: string
  /** Path of the limit in the product's record. */
  path: (string | number)[]
  /** The label's least water in L/ha, where a concentration was calculated from a dose for ground area. */
  inWater?: number
}

/** By product and targets: in a ledger of many sprays, a fifth of the time and of the memory of `check`. */
const limits = new WeakMap<Product, Map<string, readonly DoseLimit[]>>()

/** Every limit of dose of the label for what a spray was against, calculated once for a product. */
export function limitsFor(product: Product, targets: readonly string[] | undefined): readonly DoseLimit[] {
  const known = limits.get(product) ?? new Map<string, readonly DoseLimit[]>()
  limits.set(product, known)
  const key = JSON.stringify(targets) ?? ''
  const found = known.get(key) ?? doseLimits(usesFor(product, targets))
  known.set(key, found)
  return found
}

/** Every limit of dose of the uses given, whichever form the label gives it in. */
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
 * The highest concentrations that the label's doses for ground area come to, in its least water: what a spot spray is
 * held against where nobody wrote how much it treated. None where the label names no water.
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

/** A dose in the forms in which a label may limit it; null where it can't be had. */
export interface DoseForms {
  perHa: Quantity | null
  perLeafWall: Quantity | null
  /** In the volume that the label speaks of: dilute where the spray was a concentrate, else as applied. */
  concentration: Quantity | null
}

/** The dose in the unit of a limit, or null where it can't be had in that form. */
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

/** The growth stages in which the label allows a use, and where its record says so; null where it names none. */
export function stagesOf(
  product: Product,
  { use, index }: LabelUse,
): { low: number; high: number; path: (string | number)[] } | null {
  const last = product.not_after
  if (use.stages && (last === undefined || use.stages.high <= last))
    return { low: use.stages.low, high: use.stages.high, path: ['uses', index, 'stages'] }
  return last === undefined ? null : { low: use.stages?.low ?? 0, high: last, path: ['not_after'] }
}

/** Days before harvest by the label: of the uses given, else of the product; the longest. null where it gives none. */
export function daysBeforeHarvest(product: Product, targets: readonly string[] | undefined): number | null {
  const days = usesFor(product, targets).map(({ use }) => use.before_harvest ?? product.before_harvest)
  const known = (days.length === 0 ? [product.before_harvest] : days).filter((each) => each !== undefined)
  return known.length === 0 ? null : highest(known)
}

/** Path of the pre-harvest interval that decides, for a mention. */
export function daysBeforeHarvestPath(
  product: Product,
  targets: readonly string[] | undefined,
): (string | number)[] {
  const days = daysBeforeHarvest(product, targets)
  const own = usesFor(product, targets).find(({ use }) => use.before_harvest === days)
  return own ? ['uses', own.index, 'before_harvest'] : ['before_harvest']
}

/** Shortest days between applications that the label allows for these uses, the longest of them; null where it gives none. */
export function shortestInterval(
  product: Product,
  targets: readonly string[] | undefined,
): { days: number; path: (string | number)[] } | null {
  const known = usesFor(product, targets).filter(({ use }) => use.interval !== undefined)
  const longest = known.toSorted((a, b) => b.use.interval!.low - a.use.interval!.low)[0]
  return longest ? { days: longest.use.interval!.low, path: ['uses', longest.index, 'interval'] } : null
}
