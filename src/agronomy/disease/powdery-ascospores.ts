import type { WetSpell } from '../weather/wet-spells.ts'

/** mm of rain under which no ascospore infection is counted (Gadoury & Pearson 1990, from memory). */
export const ASCOSPORE_RAIN = 2.5
/** Rain in mm, mean °C and hours of wetness from which ascospores may infect; the mean from 50 to 80 °F. */
const LIMITS = { rain: ASCOSPORE_RAIN, lowest: 10, highest: ((80 - 32) * 5) / 9, hours: 12 }

/**
 * Whether a wet spell may have let powdery mildew's ascospores infect: null where data are missing.
 * Rain of 2.5 mm (Gadoury & Pearson 1990, from memory) and a mean of 50-80 °F over at least 12 h of wetness
 * (UC, from memory; 12 h also AVF research summary and Maryland Grape Growers, read). Symptoms follow 7-10 days
 * later (Nita 2012, read).
 */
export function ascosporeInfection(spell: WetSpell) {
  const { rain, lowest, highest, hours } = LIMITS
  const { temperature, wetHours, complete } = spell
  const result = (possible: boolean | null, why: string) => ({
    possible,
    why,
    complete: complete && spell.rain !== null,
  })
  if (temperature === null) return result(null, 'no temperature while wet')
  if (temperature < lowest - 1e-9 || temperature > highest + 1e-9)
    return result(complete ? false : null, `mean ${temperature.toFixed(1)} °C is outside the rule's range`)
  if (wetHours < hours - 1e-9)
    return result(complete ? false : null, `${wetHours} h wet, ${hours.toFixed(1)} h needed`)
  if (spell.rain === null) return result(null, 'rain is missing for part of the wet spell')
  if (spell.rain < rain - 1e-9)
    return result(complete ? false : null, `${spell.rain.toFixed(1)} mm, ${rain} mm needed`)
  return result(true, `${spell.rain.toFixed(1)} mm and ${wetHours} h wet at ${temperature.toFixed(1)} °C`)
}
