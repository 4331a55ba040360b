import { describe, expect, test } from 'vitest'
import { frostCrop } from '../../src/agronomy/crop/frost-crop.ts'
import { pointQuadrat } from '../../src/agronomy/crop/point-quadrat.ts'
import { ravazIndex } from '../../src/agronomy/crop/ravaz-index.ts'
import { diseaseSeverityIndex } from '../../src/agronomy/disease/disease-severity-index.ts'
import { downyWetnessProduct } from '../../src/agronomy/disease/downy-wetness-product.ts'
import { coolingHeat } from '../../src/agronomy/heat/cooling-heat.ts'
import { leafToFruit, sugarByLeaf } from '../../src/agronomy/ripening/leaf-fruit-sugar.ts'
import { brixAcidRatio, brixPh, brixPhSquared } from '../../src/agronomy/ripening/ripeness-index.ts'
import { productForActive } from '../../src/agronomy/spraying/active-content.ts'
import { rowLengthPerHa } from '../../src/agronomy/spraying/canopy.ts'
import { copperPerHa } from '../../src/agronomy/spraying/copper-content.ts'
import { courseLength, effectiveSwath } from '../../src/agronomy/spraying/knapsack-plot.ts'
import { checkNozzles, checkRate } from '../../src/agronomy/spraying/nozzle-check.ts'
import { mostSprayed, passTime } from '../../src/agronomy/spraying/pass-time.ts'
import {
  meanTreatmentFrequency,
  treatmentFrequency,
} from '../../src/agronomy/spraying/treatment-frequency.ts'
import { learnedBias } from '../../src/agronomy/statistics/estimate-error.ts'

describe('the heat to cool grapes', () => {
  test('is for their weight and the difference, and none where they are cool', () => {
    expect(coolingHeat({ weight: 1000, from: 22, to: 10 })).toBeCloseTo((1000 * 3.7 * 12) / 3600, 9)
    expect(coolingHeat({ weight: 1000, from: 8, to: 10 })).toBe(0)
  })
  test.each([
    [{ weight: -1, from: 20, to: 10 }, /weight/],
    [{ weight: 1, from: Number.POSITIVE_INFINITY, to: 10 }, 'finite temperatures'],
    [{ weight: 1, from: 20, to: Number.NaN }, 'finite temperatures'],
  ])('not of %j', (options, message) => expect(() => coolingHeat(options)).toThrow(message))
  test('of two temperatures whose sum alone is infinite, or whose difference is', () => {
    expect(() => coolingHeat({ weight: 1, from: 1e308, to: -1e308 })).toThrow('finite')
    expect(coolingHeat({ weight: 0, from: 1e308, to: 1e308 })).toBe(0)
  })
})

describe('the crop after a frost', () => {
  const counted = { nodes: 100, blind: 10, primaryKilled: 40, secondaryKilled: 20 }
  test('is whole shares of what lives, and parts of what shoots again', () => {
    expect(frostCrop(counted)).toEqual({ nodes: 57, ofAll: 0.57, ofLive: 57 / 90 })
    expect(frostCrop({ ...counted, primaryKilled: 90, secondaryKilled: 90 }).nodes).toBe(0)
  })
  test.each([{ blind: 100 }, { blind: 120 }, { primaryKilled: 91 }, { secondaryKilled: 41 }])(
    'not where the counts contradict each other: %j',
    (wrong) => expect(() => frostCrop({ ...counted, ...wrong })).toThrow('counts that fit into each other'),
  )
  test.each([
    { nodes: 0 },
    { blind: -1 },
    { primaryKilled: -1 },
    { secondaryKilled: -1 },
    { secondary: 1.1 },
  ])('not with %j', (wrong) =>
    expect(() => frostCrop({ ...counted, ...wrong })).toThrow(Object.keys(wrong)[0]),
  )
})

describe('wet hours times warmth', () => {
  test('infect from the threshold on', () => {
    expect(downyWetnessProduct(4.5, 10)).toEqual({ product: 45, infection: true })
    expect(downyWetnessProduct(4.4, 10).infection).toBe(false)
    expect(downyWetnessProduct(0, 20)).toEqual({ product: 0, infection: false })
    expect(downyWetnessProduct(0.1 * 3, 150).infection).toBe(true)
  })
  test('not of less than none', () =>
    expect(() => downyWetnessProduct(-1, 10)).toThrow('wet hours of 0 or more, got -1'))
})

describe('what past estimates teach', () => {
  test('says why where seasons lack', () => {
    expect(learnedBias([]).reason).toBe('no season has estimate and pick')
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

describe('the disease severity index', () => {
  test('is 1 where all are of the highest grade, and nothing where none was graded', () => {
    expect(diseaseSeverityIndex([{ grade: 4, count: 5 }], 4)).toBe(1)
    expect(diseaseSeverityIndex([{ grade: 0, count: 0 }], 4)).toBeNull()
  })
  test.each([
    [5, 1, 4],
    [-1, 1, 4],
    [1, -1, 4],
    [0, 1, 0],
    [0, 1, -1],
  ])('not with grade %d counted %d of a highest %d', (grade, count, highest) =>
    expect(() => diseaseSeverityIndex([{ grade, count }], highest)).toThrow(
      `grades of 0 to ${highest}, got ${grade}`,
    ),
  )
})

// A slip in a record must stop the sum with the figure's name, not run on as a negative or endless amount.
describe('a figure that is no quantity is refused by its name', () => {
  const pass = { area: 1, speed: 5, width: 2, flow: 5, tank: 200 }
  const inserted = { insertions: 50, gaps: 20, leaves: 60, bunches: 10, exterior: 6 }
  const treated = { dose: 2, referenceDose: 4, share: 1 }
  test.each<[named: RegExp, run: () => unknown]>([
    [/activePerHa/, () => productForActive({ activePerHa: -1, content: 800 })],
    [/content/, () => productForActive({ activePerHa: 1, content: 0 })],
    [/rowSpacing/, () => rowLengthPerHa(0)],
    [/productPerHa/, () => copperPerHa({ productPerHa: -1, content: 350 })],
    [/content/, () => copperPerHa({ productPerHa: 1, content: 0 })],
    [/swath/, () => courseLength(0)],
    [/wetted width/, () => effectiveSwath(-1)],
    [/share/, () => effectiveSwath(1, 1.1)],
    [/leafArea/, () => sugarByLeaf(0)],
    [/leafArea/, () => leafToFruit({ leafArea: 0, fruit: 1 })],
    [/fruit/, () => leafToFruit({ leafArea: 1, fruit: 0 })],
    [/nozzle flow/, () => checkNozzles([1, 0])],
    [/tolerance/, () => checkNozzles([1, 1], 1.1)],
    [/actual rate/, () => checkRate({ actual: 0, wanted: 1 })],
    [/wanted rate/, () => checkRate({ actual: 1, wanted: 0 })],
    [/tolerance/, () => checkRate({ actual: 1, wanted: 1, tolerance: -0.1 })],
    [/area/, () => passTime({ ...pass, area: 0 })],
    [/flow/, () => passTime({ ...pass, flow: 0 })],
    [/tank/, () => passTime({ ...pass, tank: -1 })],
    [/minutes/, () => mostSprayed({ flow: 1, minutes: 0 })],
    [/insertions/, () => pointQuadrat({ ...inserted, insertions: 0 })],
    [/gaps/, () => pointQuadrat({ ...inserted, gaps: -1 })],
    [/leaves/, () => pointQuadrat({ ...inserted, leaves: -1 })],
    [/bunches/, () => pointQuadrat({ ...inserted, bunches: -1, exterior: -2 })],
    [/parts that fit/, () => pointQuadrat({ ...inserted, gaps: 51 })],
    [/parts that fit/, () => pointQuadrat({ ...inserted, exterior: 11 })],
    [/fruit/, () => ravazIndex({ fruit: -1, prunings: 1 })],
    [/prunings/, () => ravazIndex({ fruit: 1, prunings: 0 })],
    [/Brix/, () => brixPh(0, 3)],
    [/pH/, () => brixPh(20, 0)],
    [/Brix/, () => brixPhSquared(Number.POSITIVE_INFINITY, 3)],
    [/pH/, () => brixPhSquared(20, Number.NaN)],
    [/Brix/, () => brixAcidRatio(-1, 7)],
    [/acidity/, () => brixAcidRatio(20, 0)],
    [/dose/, () => treatmentFrequency([{ ...treated, dose: -1 }])],
    [/share/, () => treatmentFrequency([{ ...treated, share: 1.1 }])],
    [/referenceDose/, () => treatmentFrequency([{ ...treated, referenceDose: 0 }])],
    [/permittedShare/, () => treatmentFrequency([{ ...treated, permittedShare: 0 }])],
    [/index/, () => meanTreatmentFrequency([{ index: -1, area: 1 }])],
    [/area/, () => meanTreatmentFrequency([{ index: 1, area: 0 }])],
  ])('%s', (named, run) => {
    expect(run).toThrow(RangeError)
    expect(run).toThrow(named)
  })

  test('its limits are still a quantity', () => {
    expect(pointQuadrat({ insertions: 50, gaps: 50, leaves: 0, bunches: 6, exterior: 6 })).toEqual({
      gaps: 1,
      leafLayers: 0,
      exposure: 1,
    })
    expect(pointQuadrat({ ...inserted, bunches: 0, exterior: 0 }).exposure).toBeNull()
    expect(passTime({ area: 1, speed: 5, width: 2, flow: 5 })).toEqual({
      minutes: 60,
      minutesPerTank: null,
      fills: null,
      refills: null,
    })
    expect(passTime({ area: 1, speed: 5, width: 2, tank: 100 }).fills).toBeNull()
    expect(passTime({ ...pass, tank: 100 })).toEqual({
      minutes: 60,
      minutesPerTank: 20,
      fills: 3,
      refills: 2,
    })
  })
})
