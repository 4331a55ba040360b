import type { WetSpell } from '../weather/wet-spells.ts'

/** mm of rain under which no ascospore infection is counted (Gadoury & Pearson 1990, from memory). */
export const ASCOSPORE_RAIN = 2.5
/** Mean °C, 50 to 80 °F, and hours of wetness in which ascospores may infect. */
const LIMITS = { lowest: 10, highest: ((80 - 32) * 5) / 9, hours: 12 }

/**
 * Whether a wet spell may have let powdery mildew's ascospores infect: null where data are missing.
 * Rain of 2.5 mm (Gadoury & Pearson 1990, from memory) and a mean of 50-80 °F over at least 12 h of wetness
 * (UC, from memory; 12 h also AVF research summary and Maryland Grape Growers, read). Symptoms follow 7-10 days
 * later (Nita 2012, read).
 */
export function ascosporeInfection({ temperature, wetHours, rain, complete }: WetSpell): boolean | null {
  if (temperature === null) return null
  const { lowest, highest, hours } = LIMITS
  const isWarm = temperature >= lowest - 1e-9 && temperature <= highest + 1e-9
  const isLong = wetHours >= hours - 1e-9
  if (isWarm && isLong && rain === null) return null
  if (isWarm && isLong && rain! >= ASCOSPORE_RAIN - 1e-9) return true
  return complete ? false : null
}
