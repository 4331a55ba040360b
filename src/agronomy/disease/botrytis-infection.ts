export type BotrytisRisk = 'none' | 'low' | 'moderate' | 'high'
interface BotrytisInfection {
  /** Null where there is no value, as the two below. */
  logit: number | null
  /** Predicted share of berries infected, 0 to 1. */
  index: number | null
  risk: BotrytisRisk | null
  why: 'computed' | 'not wet' | 'outside 12-30 °C' | 'computed outside 4-24 h'
}

const LOWEST = 12 - 1e-9
const HIGHEST = 30 + 1e-9

/**
 * Botrytis infection of berries after `wetHours` hours of wetness at a mean of `temperature` °C while wet, from
 * bloom to harvest. Classes split the LOGIT at 0, 0.5 and 1.0, not the share, which can never reach 1; a value on
 * a limit takes the higher class. No wetness is no risk, though the equation alone would give 0.066 there.
 * Outside 12-30 °C there is no value. Outside 4-24 h the equation still answers, and `why` says so.
 * Source: Broome, English, Marois, Latorre & Aviles 1995, Phytopathology 85:97-102, coefficients as read in four
 * public research codes; classes and ranges from memory.
 */
export function botrytisInfection(wetHours: number, temperature: number): BotrytisInfection {
  if (!(wetHours >= 0))
    throw new RangeError(`botrytisInfection requires wet hours of 0 or more, got ${wetHours}`)
  if (wetHours === 0) return { logit: null, index: 0, risk: 'none', why: 'not wet' }
  if (!(temperature >= LOWEST && temperature <= HIGHEST))
    return { logit: null, index: null, risk: null, why: 'outside 12-30 °C' }
  const perHour = -0.374927 + 0.061601 * temperature - 0.001511 * temperature ** 2
  const logit = -2.647866 + perHour * wetHours
  const why = wetHours < 4 || wetHours > 24 ? 'computed outside 4-24 h' : 'computed'
  return { logit, index: botrytisShare(logit), risk: riskOf(logit), why }
}

/** The logit from which each class counts, from memory; below the first there is no risk. */
export const BOTRYTIS_RISK_FROM = [
  { risk: 'low', logit: 0 },
  { risk: 'moderate', logit: 0.5 },
  { risk: 'high', logit: 1 },
] as const

/** Share of berries infected, 0 to 1, of a logit. */
export const botrytisShare = (logit: number): number => 1 / (1 + Math.exp(-logit))

const riskOf = (logit: number): BotrytisRisk =>
  BOTRYTIS_RISK_FROM.findLast((from) => logit >= from.logit)?.risk ?? 'none'
