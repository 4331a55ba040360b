import { describe, expect, test } from 'vitest'
import { baumeFromSpecificGravity } from '../../src/agronomy/ripening/must-scales.ts'
import { potentialAlcohol } from '../../src/agronomy/ripening/potential-alcohol.ts'
import { correctForTemperature } from '../../src/agronomy/ripening/refractometer.ts'
import { brixAcidRatio } from '../../src/agronomy/ripening/ripeness-index.ts'
import { sugarPerLitre } from '../../src/agronomy/ripening/sugar-content.ts'
import { titratableAcidity } from '../../src/agronomy/ripening/titratable-acidity.ts'

interface Trap {
  /** What a source prints wrongly or a hasty reader does: the value we must not give. */
  trap: string
  got: number
  wrong: number
  right: number
  within: number
}

const TRAPS: Trap[] = [
  {
    trap: 'a web calculator applies 0.00045 per °C, the coefficient of the refractive index, to Brix',
    got: correctForTemperature(20, 12).correction!,
    wrong: 0.00045 * -8,
    right: -0.53,
    within: 1e-9,
  },
  {
    trap: 'sign of the temperature correction: below 20 °C the reading is too high',
    got: correctForTemperature(22, 12).brix!,
    wrong: 22.538,
    right: 21.462,
    within: 1e-9,
  },
  {
    trap: 'Brix / TA needs TA in g per 100 mL, not g/L',
    got: brixAcidRatio(22.5, 7),
    wrong: 22.5 / 7,
    right: 32.142857,
    within: 1e-5,
  },
  {
    trap: '6 g/L of acid is 0.60 %, not 6 %',
    got: titratableAcidity({ sample: 15, normality: 0.1, base: 12 }) / 10,
    wrong: 6,
    right: 0.6,
    within: 1e-9,
  },
  {
    trap: 'Brix x density taken for the fermentable sugar of must',
    got: sugarPerLitre(20).value!,
    wrong: 216.2,
    right: 192.3,
    within: 0.06,
  },
  {
    trap: 'the 15 °C modulus 144.32 used with a gravity at 20/20 °C',
    got: baumeFromSpecificGravity(1.092),
    wrong: 144.32 - 144.32 / 1.092,
    right: 12.216,
    within: 0.001,
  },
]

describe('slips and traps found in the sources', () => {
  test.each(TRAPS)('$trap', ({ got, wrong, right, within }) => {
    expect(Math.abs(got - right)).toBeLessThanOrEqual(within)
    expect(Math.abs(got - wrong)).toBeGreaterThan(3 * within)
  })
  test('Brix x density, 216.2 g/L of sucrose at 20 Brix, overstates must by 12 to 13 %', () => {
    expect(216.2 / sugarPerLitre(20).value! - 1).toBeGreaterThan(0.12)
    expect(216.2 / sugarPerLitre(20).value! - 1).toBeLessThan(0.13)
  })
  test('an example prints 22.25 - 3 = 19.25 for 2 x 11.25 - 3, which is 19.5: the rule is not used', () => {
    expect(2 * 11.25 - 3).toBe(19.5)
    expect(Object.keys(potentialAlcohol(20).methods)).not.toContain('baume')
  })
  test('the EU and the German line differ by 0.1-0.2 % vol and are kept apart by name', () => {
    const { methods } = potentialAlcohol(20)
    const apart = methods['eu-line']! - methods['oechsle-line']!
    expect(apart).toBeGreaterThan(0.1)
    expect(apart).toBeLessThan(0.25)
  })
  test('below 16-17 Brix the EU line falls under 0.55 x Brix, so that the range reaches lower', () => {
    const { methods, low } = potentialAlcohol(16)
    expect(methods['eu-line']!).toBeLessThan(0.55 * 16)
    expect(low!).toBeLessThan(0.55 * 16)
  })
})
