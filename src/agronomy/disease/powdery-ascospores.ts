import { type TableRows, tableValue } from '../statistics/table-value.ts'
import { withDefaults } from '../statistics/with-defaults.ts'
import type { WetSpell } from '../weather/wet-spells.ts'

interface AscosporeLimits {
  /** mm in the wet spell that let the spores go. */
  rain: number
  /** Mean °C of the wet spell. */
  lowest: number
  highest: number
  /** Hours wet, or two thirds of the heavy Mills hours at the mean temperature. */
  hours: number | 'two-thirds-mills'
}

const ASCOSPORE_LIMITS: AscosporeLimits = {
  rain: 2.5,
  lowest: 10,
  highest: ((80 - 32) * 5) / 9,
  hours: 12,
}

/** Mean °F and hours for a heavy infection, Mills & Laplante 1951 (apple scab). From memory. */
export const MILLS_HEAVY_HOURS: TableRows = [
  [42, 60],
  [45, 41],
  [48, 30],
  [50, 29],
  [52, 26],
  [55, 24],
  [58, 21],
  [60, 20],
  [63, 18],
  [75, 18],
  [76, 19],
  [78, 26],
]

/**
 * Whether a wet spell may have let powdery mildew's ascospores infect: null where data are missing.
 * Rain of 2.5 mm (Gadoury & Pearson 1990, from memory) and a mean of 50-80 °F over at least 12 h of wetness
 * (UC, from memory; 12 h also AVF research summary and Maryland Grape Growers, read). Symptoms follow 7-10 days
 * later (Nita 2012, read). `hours` set to `two-thirds-mills` takes the instrument rule after Thomas, Gubler &
 * Leavitt 1994 (second hand), straight between rows.
 */
export function ascosporeInfection(spell: WetSpell, limits: Partial<AscosporeLimits> = {}) {
  const { rain, lowest, highest, hours } = withDefaults(ASCOSPORE_LIMITS, limits)
  const { temperature, wetHours, complete } = spell
  const result = (possible: boolean | null, why: string) => ({
    possible,
    why,
    complete: complete && spell.rain !== null,
  })
  if (temperature === null) return result(null, 'no temperature while wet')
  if (temperature < lowest - 1e-9 || temperature > highest + 1e-9)
    return result(complete ? false : null, `mean ${temperature.toFixed(1)} °C is outside the rule's range`)
  const needed = hours === 'two-thirds-mills' ? millsHours(temperature) : hours
  if (needed === null) return result(null, 'no table value at this temperature')
  if (wetHours < needed - 1e-9)
    return result(complete ? false : null, `${wetHours} h wet, ${needed.toFixed(1)} h needed`)
  if (spell.rain === null) return result(null, 'rain is missing for part of the wet spell')
  if (spell.rain < rain - 1e-9)
    return result(complete ? false : null, `${spell.rain.toFixed(1)} mm, ${rain} mm needed`)
  return result(true, `${spell.rain.toFixed(1)} mm and ${wetHours} h wet at ${temperature.toFixed(1)} °C`)
}

function millsHours(celsius: number): number | null {
  const heavy = tableValue(MILLS_HEAVY_HOURS, (celsius * 9) / 5 + 32)
  return heavy === null ? null : (heavy * 2) / 3
}
