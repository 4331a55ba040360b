type PowderyPressure = 'low' | 'moderate' | 'high'
export type PowderyProductClass = 'biological' | 'sulphur' | 'dmi' | 'strobilurin'
/**
 * Most days between sprays by pressure and class of product; null where the class is not advised. From memory of the
 * UC IPM table, which was not read; it gives spans, 14 to 21 days for sulphur at low pressure.
 */
const LONGEST_DAYS: Record<PowderyPressure, Record<PowderyProductClass, number | null>> = {
  low: { biological: 14, sulphur: 21, dmi: 21, strobilurin: 21 },
  moderate: { biological: 7, sulphur: 17, dmi: 21, strobilurin: 21 },
  high: { biological: null, sulphur: 7, dmi: 14, strobilurin: 14 },
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
 * Most days between sprays for an index of 0 to 100 and a class of product; null where it is not advised. The label's
 * interval caps it always: where the two differ, the shorter decides. Bicarbonate is taken as `biological`, a judgement
 * without a source.
 */
export function longestPowderyInterval(index: number, productClass: PowderyProductClass): number | null {
  return LONGEST_DAYS[powderyPressure(index)][productClass]
}
