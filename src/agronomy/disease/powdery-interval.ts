type PowderyPressure = 'low' | 'moderate' | 'high'
export type PowderyProductClass = 'biological' | 'sulphur' | 'dmi' | 'strobilurin'
/** Days between sprays; null where products of the class are not advised. */
type PowderyInterval = { shortest: number; longest: number } | null

const days = (shortest: number, longest = shortest) => ({ shortest, longest })

/** Days between sprays by pressure and class of product. From memory of the UC IPM table; it was not read. */
const POWDERY_INTERVALS: Record<PowderyPressure, Record<PowderyProductClass, PowderyInterval>> = {
  low: { biological: days(7, 14), sulphur: days(14, 21), dmi: days(21), strobilurin: days(21) },
  moderate: { biological: days(7), sulphur: days(10, 17), dmi: days(21), strobilurin: days(21) },
  high: { biological: null, sulphur: days(7), dmi: days(10, 14), strobilurin: days(14) },
}

/** The lowest index of the highest band. */
export const HIGH_PRESSURE = 60

/** The band of the index: up to 30 low, 40 and 50 moderate, from 60 high (D. Gubler in Western Farm Press; read). */
export function powderyPressure(index: number): PowderyPressure {
  if (!(index >= 0 && index <= 100))
    throw new RangeError(`powderyPressure requires an index of 0 to 100, got ${index}`)
  if (index >= HIGH_PRESSURE) return 'high'
  return index >= 40 ? 'moderate' : 'low'
}

/**
 * The interval for an index of 0 to 100 and a class of product. The label's interval caps it always: where the
 * two differ, the shorter decides. Bicarbonate is taken as `biological`, a judgement without a source.
 */
export function powderyInterval(index: number, productClass: PowderyProductClass): PowderyInterval {
  return POWDERY_INTERVALS[powderyPressure(index)][productClass]
}
