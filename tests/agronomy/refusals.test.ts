import { describe, expect, test } from 'vitest'
import { ravazIndex } from '../../src/agronomy/crop/ravaz-index.ts'
import { brixAcidRatio, brixPhSquared } from '../../src/agronomy/ripening/ripeness-index.ts'
import { activePerHa, copperPerHa } from '../../src/agronomy/spraying/active-content.ts'
import { courseLength, mostSprayed } from '../../src/agronomy/spraying/calibration.ts'
import { leafWallPerHa } from '../../src/agronomy/spraying/canopy.ts'
import { checkNozzles, checkRate } from '../../src/agronomy/spraying/nozzle-check.ts'
import { treatmentFrequency } from '../../src/agronomy/spraying/treatment-frequency.ts'
import { learnedBias } from '../../src/agronomy/statistics/estimate-error.ts'

describe('what past estimates teach', () => {
  test('says why where seasons lack', () => {
    expect(learnedBias([]).reason).toBe('no season has both a crop estimate and a pick')
    expect(learnedBias([{ estimate: 100, actual: 120 }])).toMatchObject({
      factor: expect.closeTo(1.2, 9),
      reason: 'one season does not tell bias from chance',
    })
    expect(() => learnedBias([{ estimate: 100, actual: 0 }])).toThrow('actual')
  })
  test('two seasons of the same size either way leave a factor of 1, and t of one degree of freedom', () => {
    const { factor, low, high, reason } = learnedBias([
      { estimate: 100, actual: 110 },
      { estimate: 110, actual: 100 },
    ])
    // Standard error ln 1.1; t at 0.975 for one degree of freedom is 12.706 (any table of Student's t).
    expect([factor, reason]).toEqual([expect.closeTo(1, 9), null])
    expect(Math.log(high!) / Math.log(1.1)).toBeCloseTo(12.706, 3)
    expect(low! * high!).toBeCloseTo(1, 9)
  })
  test('four seasons: by the mean and the spread of the logarithms', () => {
    const ratios = [1.1, 1.2, 0.9, 1.3]
    const { factor, low, high } = learnedBias(
      ratios.map((ratio) => ({ estimate: 1000, actual: 1000 * ratio })),
    )
    // Mean of the logarithms 0.108659, squares about it 0.075034 in sum; t at 0.975 for three degrees is 3.18245.
    expect(Math.log(factor!)).toBeCloseTo(0.108659, 6)
    expect(Math.log(high! / low!) / 2).toBeCloseTo(3.18245 * Math.sqrt(0.075034 / 3 / 4), 5)
  })
})

// A slip in a record must stop the sum with the figure's name, not run on as a negative or endless amount.
describe('a figure that is no quantity is refused by its name', () => {
  const treated = { dose: 2, referenceDose: 4, share: 1 }
  test.each<[named: RegExp, run: () => unknown]>([
    [/productPerHa/, () => activePerHa({ productPerHa: -1, content: 800 })],
    [/content/, () => activePerHa({ productPerHa: 1, content: 0 })],
    [/rowSpacing/, () => leafWallPerHa({ treatedHeight: 1, rowSpacing: 0 })],
    [/productPerHa/, () => copperPerHa({ productPerHa: -1, content: 350 })],
    [/content/, () => copperPerHa({ productPerHa: 1, content: 0 })],
    [/swath/, () => courseLength(0)],
    [/nozzle flow/, () => checkNozzles([1, 0])],
    [/tolerance/, () => checkNozzles([1, 1], 1.1)],
    [/actual rate/, () => checkRate({ actual: 0, wanted: 1 })],
    [/wanted rate/, () => checkRate({ actual: 1, wanted: 0 })],
    [/tolerance/, () => checkRate({ actual: 1, wanted: 1, tolerance: -0.1 })],
    [/minutes/, () => mostSprayed({ flow: 1, minutes: 0 })],
    [/fruit/, () => ravazIndex({ fruit: -1, prunings: 1 })],
    [/prunings/, () => ravazIndex({ fruit: 1, prunings: 0 })],
    [/Brix/, () => brixPhSquared(Number.POSITIVE_INFINITY, 3)],
    [/pH/, () => brixPhSquared(20, Number.NaN)],
    [/Brix/, () => brixAcidRatio(-1, 7)],
    [/acidity/, () => brixAcidRatio(20, 0)],
    [/dose/, () => treatmentFrequency([{ ...treated, dose: -1 }])],
    [/share/, () => treatmentFrequency([{ ...treated, share: 1.1 }])],
    [/referenceDose/, () => treatmentFrequency([{ ...treated, referenceDose: 0 }])],
  ])('%s', (named, run) => {
    expect(run).toThrow(RangeError)
    expect(run).toThrow(named)
  })
})
