import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { brixFromSpecificGravity, specificGravityFromBrix } from '../../../src/agronomy/ripening/brix.ts'
import {
  baumeFromSpecificGravity,
  kmwFromOechsle,
  oechsleFromSpecificGravity,
  specificGravityFromBaume,
  specificGravityFromOechsle,
} from '../../../src/agronomy/ripening/must-scales.ts'
import { potentialAlcohol, roughAlcohol } from '../../../src/agronomy/ripening/potential-alcohol.ts'
import { correctForTemperature } from '../../../src/agronomy/ripening/refractometer.ts'
import { brixAcidRatio, brixPhSquared } from '../../../src/agronomy/ripening/ripeness-index.ts'
import { sugarPerLitre } from '../../../src/agronomy/ripening/sugar-content.ts'
import { sugarLoading, sugarPerBerry } from '../../../src/agronomy/ripening/sugar-per-berry.ts'
import { titratableAcidity } from '../../../src/agronomy/ripening/titratable-acidity.ts'

const brix = fc.double({ min: 0, max: 40, noNaN: true })

describe('scales', () => {
  test('there and back again', () => {
    fc.assert(
      fc.property(brix, (b) => {
        const gravity = specificGravityFromBrix(b)
        expect(brixFromSpecificGravity(gravity)).toBeCloseTo(b, 9)
        expect(specificGravityFromOechsle(oechsleFromSpecificGravity(gravity))).toBeCloseTo(gravity, 12)
        expect(specificGravityFromBaume(baumeFromSpecificGravity(gravity))).toBeCloseTo(gravity, 12)
        const oechsle = oechsleFromSpecificGravity(gravity)
        const kmw = kmwFromOechsle(oechsle)
        expect(kmw * (4.54 + 0.022 * kmw)).toBeCloseTo(oechsle, 9)
      }),
    )
  })
  test('water is 0 on each scale', () => {
    expect(specificGravityFromBrix(0)).toBe(1)
    expect([oechsleFromSpecificGravity(1), baumeFromSpecificGravity(1), kmwFromOechsle(0)]).toEqual([0, 0, 0])
  })
  test('refuses what the formulas are not meant for', () => {
    for (const bad of [-0.1, 40.1, Number.NaN]) {
      expect(() => specificGravityFromBrix(bad)).toThrow(RangeError)
      expect(() => sugarPerLitre(bad)).toThrow(RangeError)
      expect(() => potentialAlcohol(bad)).toThrow(RangeError)
    }
    expect(() => brixFromSpecificGravity(0.99)).toThrow(RangeError)
    expect(() => brixFromSpecificGravity(1.3)).toThrow(RangeError)
    expect(() => baumeFromSpecificGravity(0)).toThrow(RangeError)
    expect(() => specificGravityFromBaume(145)).toThrow(RangeError)
    expect(() => kmwFromOechsle(-1)).toThrow(RangeError)
  })
})

describe('sugar and alcohol', () => {
  test('more Brix is never less sugar nor less alcohol, across the change of method', () => {
    fc.assert(
      fc.property(brix, fc.double({ min: 0, max: 3, noNaN: true }), (b, more) => {
        const higher = Math.min(40, b + more)
        const [less, sugar] = [sugarPerLitre(b).value ?? 0, sugarPerLitre(higher).value ?? 0]
        expect(sugar).toBeGreaterThanOrEqual(less)
        expect(potentialAlcohol(higher).likely ?? 0).toBeGreaterThanOrEqual(
          (potentialAlcohol(b).likely ?? 0) - 0.05,
        )
      }),
    )
  })
  test('the method and its range are named', () => {
    expect(sugarPerLitre(15)).toMatchObject({ method: 'eu-line', inRange: true, reason: null })
    expect(sugarPerLitre(25)).toMatchObject({ method: 'eu-line', inRange: true })
    expect(sugarPerLitre(14.9)).toMatchObject({ method: 'oechsle-line', inRange: false })
    expect(sugarPerLitre(14.9).reason).toMatch(/below 15/)
    expect(sugarPerLitre(25.1).reason).toMatch(/above 25/)
  })
  test('too little sugar is said, never 0 nor less', () => {
    expect(sugarPerLitre(2).value).toBeNull()
    expect(potentialAlcohol(2)).toMatchObject({ low: null, likely: null, high: null })
    expect(potentialAlcohol(2).reason).toMatch(/too little/)
  })
  test('the range holds what is likely', () => {
    fc.assert(
      fc.property(fc.double({ min: 3, max: 40, noNaN: true }), (b) => {
        const { low, likely, high } = potentialAlcohol(b)
        if (low === null) return
        expect(low).toBeLessThanOrEqual(likely!)
        expect(likely!).toBeLessThanOrEqual(high!)
      }),
    )
    expect(potentialAlcohol(12).methods['eu-line']).toBeUndefined()
  })
  test('half of Brix is the lowest of all at picking ripeness', () => {
    expect(roughAlcohol(20)).toBe(10)
    for (const b of [17, 20, 24]) expect(roughAlcohol(b)).toBeLessThan(potentialAlcohol(b).low!)
  })
})

describe('refractometer', () => {
  test('refuses outside the table, with the reason', () => {
    expect(correctForTemperature(20, 4.9)).toMatchObject({ brix: null, basis: null })
    expect(correctForTemperature(20, 30.1).reason).toMatch(/5 to 30/)
    expect(correctForTemperature(9.9, 15).reason).toMatch(/10 to 30/)
    expect(correctForTemperature(30.1, 15).brix).toBeNull()
    expect(correctForTemperature(9, 20)).toMatchObject({
      brix: 9,
      low: 9,
      high: 9,
      correction: 0,
      basis: 'read',
    })
    expect(() => correctForTemperature(20, Number.NaN)).toThrow(RangeError)
  })
  test('says which corrections were read and which are from memory', () => {
    const bases = [5, 9, 16, 16.1, 19, 20, 22, 30].map((celsius) => correctForTemperature(18, celsius).basis)
    expect(bases.join(' ')).toBe('read memory read memory memory read memory memory')
  })
  test('a row that was read is one figure; one from memory lies near the line between those that were read', () => {
    const read = [5, 7, 10, 12, 14, 16, 20]
    for (const celsius of read) {
      const { brix, low, high } = correctForTemperature(20, celsius)
      expect([low, high]).toEqual([brix, brix])
    }
    for (const reading of [10, 15, 20, 25, 30]) {
      for (const celsius of [6, 8, 9, 11, 13, 15, 17, 18, 19]) {
        const cold = read.findLast((row) => row < celsius)!
        const warm = read.find((row) => row > celsius)!
        const [from, to] = [cold, warm].map((row) => correctForTemperature(reading, row).brix!)
        const line = from! + ((to! - from!) * (celsius - cold)) / (warm - cold)
        const { low, high } = correctForTemperature(reading, celsius)
        expect(low!).toBeLessThan(line)
        expect(high!).toBeGreaterThan(line)
        expect(high! - low!).toBeCloseTo(0.06, 9)
      }
    }
  })
  test('rises with temperature and changes sign at 20 °C', () => {
    const celsius = fc.double({ min: 5, max: 29, noNaN: true })
    fc.assert(
      fc.property(fc.double({ min: 10, max: 30, noNaN: true }), celsius, (reading, t) => {
        const { correction } = correctForTemperature(reading, t)
        expect(correctForTemperature(reading, t + 1).correction!).toBeGreaterThan(correction!)
        if (t !== 20) expect(Math.sign(correction!)).toBe(Math.sign(t - 20))
      }),
    )
  })
})

describe('acid, indices, berries', () => {
  test('refuses titrations and samples that cannot be', () => {
    expect(() => titratableAcidity({ sample: 0, normality: 0.1, base: 5 })).toThrow(RangeError)
    expect(() => titratableAcidity({ sample: 5, normality: 0, base: 5 })).toThrow(RangeError)
    expect(() => titratableAcidity({ sample: 5, normality: 0.1, base: -1 })).toThrow(RangeError)
    expect(titratableAcidity({ sample: 5, normality: 0.1, base: 0 })).toBe(0)
    expect(() => brixPhSquared(20, 0)).toThrow(RangeError)
    expect(() => brixAcidRatio(20, 0)).toThrow(RangeError)
    expect(() => sugarPerBerry(0, 20)).toThrow(RangeError)
    expect(() => sugarPerBerry(1, -1)).toThrow(RangeError)
  })
  test('sugar that really went is called a loss; the same day is refused', () => {
    const before = { day: 0, weight: 1.4, brix: 21 }
    expect(sugarLoading(before, { day: 7, weight: 1.4, brix: 19 }).state).toBe('loss')
    expect(sugarLoading(before, { day: 7, weight: 1.4, brix: 20.8 }).state).toBe('plateau')
    expect(() => sugarLoading(before, { ...before })).toThrow(RangeError)
  })
})
