import { exceeds } from '../statistics/exceeds.ts'
import { requireNotNegative, requirePositive } from '../statistics/require-number.ts'

/** A dose in the form that the label gives it. `unit` is what the product is measured in. */
export type Dose = { unit: 'kg' | 'L' } & (
  | { basis: 'ground'; perHa: number }
  /** g or mL per L of the spray that is applied: 100 mL/hL is 1, 0.2 % is 2. */
  | { basis: 'spray'; perLitre: number }
  /** g or mL per L of dilute spray (the volume that wets the canopy to run-off): 100 mL/100 L is 1. */
  | { basis: 'dilute'; perLitre: number; maxPerHa?: number }
  /** kg or L per 10 000 m² of leaf wall, with the label's most per ha of ground. */
  | { basis: 'leaf-wall'; per10000m2: number; maxPerHa?: number }
)

interface DoseContext {
  /** L/ha of spray applied. */
  waterPerHa?: number | undefined
  /** L/ha of dilute spray. */
  dilutePerHa?: number | undefined
  /** m² of leaf wall per ha of ground. */
  leafWallPerHa?: number | undefined
}

/**
 * A dose in any form as amount per hectare of ground and as concentration of the spray in the tank.
 * Per dilute volume the amount per hectare is the same whatever volume is applied; the concentration rises
 * by the concentration factor. A wetter given per volume of spray is of basis `spray` and is not raised.
 * @throws RangeError where a dose or a figure of the context is negative, zero (but a dose) or not finite
 * Sources: AWRI "Spray application in vineyards" and Viti-note "Determining dilute water volumes"; LWG Bayern
 * "Das Laubwandflaechen-Modell"; EPPO PP 1/239 (title read only).
 */
export function resolveDose(dose: Dose, context: DoseContext = {}) {
  for (const [name, value] of Object.entries(context))
    if (value !== undefined) requirePositive({ [name]: value })
  const { waterPerHa, dilutePerHa } = context
  const { amount, needs, size } = writtenPer(dose)
  requireNotNegative({ dose: amount })
  const quantity = needs === null ? 1 : context[needs]
  const wanted = quantity === undefined ? null : (amount * quantity) / size
  const maxPerHa = 'maxPerHa' in dose ? dose.maxPerHa : undefined
  if (maxPerHa !== undefined) requirePositive({ maxPerHa })
  const capped = wanted !== null && maxPerHa !== undefined && exceeds(wanted, maxPerHa)
  const perHa = capped ? maxPerHa : wanted
  const computed = perHa === null || waterPerHa === undefined ? null : (perHa * 1000) / waterPerHa
  return {
    /** kg or L of product per ha of ground; null where `missing` stands in the way. */
    perHa,
    /** g or mL of product per L of spray; null where `missing` stands in the way. */
    concentration: dose.basis === 'spray' ? dose.perLitre : computed,
    /** Dilute volume / applied volume, for a dose per dilute volume. */
    concentrationFactor:
      dose.basis === 'dilute' && dilutePerHa !== undefined && waterPerHa !== undefined
        ? dilutePerHa / waterPerHa
        : null,
    /** Whether the label's most per ha of ground lowered the dose. */
    capped,
    /** The first figure of the context without which something above is null. */
    missing: perHa === null ? needs : waterPerHa === undefined ? ('waterPerHa' as const) : null,
  }
}

/** The amount of a dose, and of what in the context it is given for each `size`. */
function writtenPer(dose: Dose): { amount: number; needs: keyof DoseContext | null; size: number } {
  switch (dose.basis) {
    case 'ground':
      return { amount: dose.perHa, needs: null, size: 1 }
    case 'spray':
      return { amount: dose.perLitre, needs: 'waterPerHa', size: 1000 }
    case 'dilute':
      return { amount: dose.perLitre, needs: 'dilutePerHa', size: 1000 }
    case 'leaf-wall':
      return { amount: dose.per10000m2, needs: 'leafWallPerHa', size: 10_000 }
  }
}
