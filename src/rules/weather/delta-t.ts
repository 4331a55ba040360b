import { deltaT as deltaTOf } from '../../agronomy/spraying/delta-t.ts'
import { judged } from '../../facts/judged.ts'
import { findingAt, type Rule } from '../rule.ts'

/** Air too dry or too moist for drops. */
export const deltaT: Rule = {
  name: 'delta-t',
  what: 'Air and wet bulb (Delta T) were under 2 °C apart or over 8 °C apart. In moist air drops hang; in dry air they dry on their way.',
  limits: 'Outside 2 to 8 °C is a hint. Over 10 °C is a warning.',
  source:
    'Australian Bureau of Meteorology, year not known, second-hand, quoted by others; wet bulb by the psychrometric equation, ASHRAE Handbook Fundamentals 2017, chapter 1, from memory',
  basis: 'memory',
  check: (input) =>
    judged(input, 'sprays').flatMap((spray) => {
      const { temperature, humidity } = spray.weather ?? {}
      if (temperature === undefined || humidity === undefined) return []
      const { value, band } = deltaTOf({ temperature, humidity })
      if (value === null || band === 'ideal') return []
      const why =
        band === 'under'
          ? 'under 2 °C apart, drops hang in moist air'
          : band === 'over'
            ? 'over 10 °C apart, drops dry on their way'
            : 'over 8 °C apart, drops begin to dry on their way'
      return findingAt(spray, ['weather', 'temperature'], {
        level: value > 10 ? 'warning' : 'hint',
        message: `air and wet bulb were ${value.toFixed(1)} °C apart (Delta T): ${why}`,
        help: 'spray at another hour, or with coarser drops',
      })
    }),
}
