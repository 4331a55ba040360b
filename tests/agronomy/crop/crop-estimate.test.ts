import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type CropEstimate, cropEstimate } from '../../../src/agronomy/crop/crop-estimate.ts'
import { cropTotal } from '../../../src/agronomy/crop/crop-total.ts'
import { factorAtHarvest, growthFactor } from '../../../src/agronomy/crop/growth-factor.ts'
import { thinning } from '../../../src/agronomy/crop/thinning.ts'
import { vinesToCount } from '../../../src/agronomy/crop/vines-to-count.ts'
import { estimateError, learnedBias } from '../../../src/agronomy/statistics/estimate-error.ts'
import { meanInterval } from '../../../src/agronomy/statistics/mean.ts'

const block = {
  vines: 833,
  bunches: { mean: 28, sd: 9, n: 20 },
  weight: { mean: 0.062, sd: 0.0225, n: 60 },
  factor: growthFactor([]),
}

const anyBlock = fc.record({
  vines: fc.integer({ min: 100, max: 5000 }),
  bunches: fc.record({
    mean: fc.integer({ min: 5, max: 60 }),
    sd: fc.integer({ min: 1, max: 20 }),
    n: fc.integer({ min: 2, max: 60 }),
  }),
  weight: fc.record({
    mean: fc.double({ min: 0.03, max: 0.3, noNaN: true }),
    sd: fc.double({ min: 0.001, max: 0.1, noNaN: true }),
    n: fc.integer({ min: 2, max: 200 }),
  }),
  factor: fc.record({
    value: fc.double({ min: 1, max: 3, noNaN: true }),
    cv: fc.double({ min: 0, max: 0.3, noNaN: true }),
  }),
})

describe('cropEstimate', () => {
  test('takes what meanInterval says of typed counts', () => {
    const bunches = meanInterval([18, 22, 19, 25])
    const weight = meanInterval([0.048, 0.055, 0.051])
    const crop = cropEstimate({ vines: 1000, bunches, weight, factor: factorAtHarvest })
    expect(crop.estimate).toBeCloseTo(1000 * 21 * (0.154 / 3), 9)
    expect(crop.guess).toBe(true)
    expect(crop.low).toBeLessThan(crop.estimate)
  })

  test('the interval of one part alone is that of Student', () => {
    const { estimate, high } = cropEstimate({
      ...block,
      vines: 1e12,
      weight: { mean: 1, sd: 0, n: 100 },
      factor: factorAtHarvest,
    })
    expect((high! / estimate - 1) * 28).toBeCloseTo((2.093024 * 9) / Math.sqrt(20), 5) // t(0.975, 19)
  })

  test('vines weighed whole', () => {
    const crop = cropEstimate({
      vines: 400,
      bunches: { mean: 2.5, sd: 0.5, n: 16 },
      weight: { mean: 1, sd: 0, n: Number.POSITIVE_INFINITY },
      factor: factorAtHarvest,
    })
    expect(crop.estimate).toBe(1000)
    // t(0.975, 15)
    expect(crop.high! - 1000).toBeCloseTo(2.13145 * 1000 * (0.2 / 4) * Math.sqrt(1 - 16 / 400), 3)
  })

  test('a part with one reading has an estimate and no interval, and is named', () => {
    const crop = cropEstimate({ ...block, weight: { mean: 0.062, sd: null, n: 1 } })
    expect(crop).toMatchObject({ low: null, high: null, halfWidth: null })
    expect(crop.reason).toBe('no interval: at least two readings of bunch weight are needed')
    const both = cropEstimate({
      ...block,
      bunches: { mean: 28, sd: null, n: 1 },
      weight: { mean: 0.062, sd: null, n: 1 },
    })
    expect(both.reason).toMatch(/bunches per vine and bunch weight/)
  })

  test('all vines counted leave no error of the count', () => {
    const crop = cropEstimate({
      ...block,
      vines: 20,
      weight: { mean: 0.1, sd: 0, n: 60 },
      factor: factorAtHarvest,
    })
    expect(crop.halfWidth).toEqual({ sampling: 0, factor: 0 })
    expect(crop.guess).toBe(false)
    expect(cropEstimate({ ...block, vines: 4, bunches: { mean: 28, sd: 9, n: 4 } }).guess).toBe(false)
    const counted = (n: number) => cropEstimate({ ...block, bunches: { mean: 28, sd: 9, n } }).guess
    expect([counted(9), counted(10)]).toEqual([true, false])
  })

  test('no bunches is no crop, with no error of division', () => {
    const crop = cropEstimate({ ...block, bunches: { mean: 0, sd: 0, n: 20 } })
    expect(crop).toMatchObject({ estimate: 0, low: 0, high: 0 })
  })

  test('counting missing vines as zero makes the error larger: they are left out of the count', () => {
    const standing = [26, 28, 30, 27, 29, 31, 25, 28, 30, 26]
    const withMissing = [...standing, 0, 0]
    const weight = { mean: 0.1, sd: 0.01, n: 100 }
    const apart = cropEstimate({
      vines: 1000,
      bunches: meanInterval(standing),
      weight,
      factor: factorAtHarvest,
    })
    const asZero = cropEstimate({
      vines: 1200,
      bunches: meanInterval(withMissing),
      weight,
      factor: factorAtHarvest,
    })
    expect(asZero.estimate).toBeCloseTo(apart.estimate, 6)
    expect(asZero.halfWidth!.sampling / apart.halfWidth!.sampling).toBeGreaterThan(2)
  })

  test.each([
    { vines: -1 },
    { vines: Number.NaN },
    { factor: { value: Number.NaN, cv: 0 } },
    { bunches: { mean: -2, sd: 1, n: 5 } },
  ])('refuses %o', (wrong) => {
    expect(() => cropEstimate({ ...block, ...wrong })).toThrow(RangeError)
  })

  test('more vines or bunches at the same spread never widen the interval', () => {
    fc.assert(
      fc.property(
        anyBlock,
        fc.integer({ min: 0, max: 80 }),
        fc.integer({ min: 0, max: 80 }),
        (one, vines, bunches) => {
          const before = cropEstimate(one)
          const after = cropEstimate({
            ...one,
            bunches: { ...one.bunches, n: one.bunches.n + vines },
            weight: { ...one.weight, n: one.weight.n + bunches },
          })
          expect(after.high! - after.low!).toBeLessThanOrEqual((before.high! - before.low!) * (1 + 1e-9))
        },
      ),
    )
  })
})

describe('cropTotal', () => {
  test('is the sum of its parts and shares the error of a shared factor', () => {
    fc.assert(
      fc.property(fc.array(anyBlock, { minLength: 1, maxLength: 6 }), (blocks) => {
        const estimates = blocks.map((one) => cropEstimate(one))
        const sum = estimates.reduce((total, { estimate }) => total + estimate, 0)
        const shared = cropTotal({ estimates, sharedFactor: true })
        const own = cropTotal({ estimates, sharedFactor: false })
        expect(shared.estimate).toBeCloseTo(sum, 6)
        expect(own.estimate).toBe(shared.estimate)
        expect(shared.high!).toBeGreaterThanOrEqual(own.high! - 1e-6)
        const plain = estimates.reduce((total, { high, estimate }) => total + (high! - estimate), 0)
        expect(shared.high! - shared.estimate!).toBeLessThanOrEqual(plain * (1 + 1e-9))
      }),
    )
  })

  test('one block is itself', () => {
    const one = cropEstimate(block)
    expect(cropTotal({ estimates: [one], sharedFactor: true })).toMatchObject({
      estimate: one.estimate,
      low: expect.closeTo(one.low!, 6),
      high: expect.closeTo(one.high!, 6),
    })
  })

  test('an unknown part makes the total unknown, a part without interval its interval', () => {
    const known: CropEstimate = cropEstimate(block)
    const bare = cropEstimate({ ...block, weight: { mean: 0.06, sd: null, n: 1 } })
    expect(cropTotal({ estimates: [known, null], sharedFactor: true })).toEqual({
      estimate: null,
      low: null,
      high: null,
      reason: 'the crop of 1 of 2 parts is unknown',
    })
    expect(cropTotal({ estimates: [], sharedFactor: true }).estimate).toBeNull()
    expect(cropTotal({ estimates: [known, bare], sharedFactor: true })).toMatchObject({
      estimate: known.estimate + bare.estimate,
      low: null,
      reason: 'the crop of 1 of 2 parts has no interval',
    })
  })
})

describe('growthFactor', () => {
  test('default with its range', () => {
    expect(growthFactor([])).toMatchObject({ value: 2, high: 2.5, basis: 'default', seasons: 0 })
    expect(growthFactor([]).low).toBeCloseTo(1.667, 3)
    expect(growthFactor([]).cv).toBeCloseTo(0.1267, 4)
  })

  test('own seasons take its place; one season is no surer than the default', () => {
    const one = growthFactor([{ lagWeight: 0.05, harvestWeight: 0.11 }])
    expect(one).toMatchObject({ basis: 'own', seasons: 1 })
    expect(one.value).toBeCloseTo(2.2, 9)
    expect(one.cv).toBeCloseTo(growthFactor([]).cv * Math.SQRT2, 9)
    const steady = growthFactor(Array(6).fill({ lagWeight: 0.05, harvestWeight: 0.11 }))
    expect(steady.cv).toBeLessThan(growthFactor([]).cv)
    expect(steady.low).toBeLessThan(2.2)
    expect(steady.high).toBeGreaterThan(2.2)
  })

  test('its range holds nine of ten by its own variation, and never goes below nothing', () => {
    // One season: the default variation times the root of two; 1.644854 is the normal value of 90 % between both ends.
    const { value, low, high } = growthFactor([{ lagWeight: 0.05, harvestWeight: 0.15 }])
    const half = 1.644854 * growthFactor([]).cv * Math.SQRT2 * 3
    expect(value).toBeCloseTo(3, 9)
    expect(high - value).toBeCloseTo(half, 5)
    expect(value - low).toBeCloseTo(half, 5)
    const torn = growthFactor([0.1, 0.1, 0.1, 30].map((harvestWeight) => ({ lagWeight: 1, harvestWeight })))
    expect(torn.low).toBe(0)
  })

  test('seasons that differ more give a wider range', () => {
    const seasons = (...ratios: number[]) =>
      growthFactor(ratios.map((r) => ({ lagWeight: 1, harvestWeight: r })))
    expect(seasons(1.5, 2, 2.5).cv).toBeGreaterThan(seasons(1.9, 2, 2.1).cv)
    expect(seasons(1.5, 2, 2.5).value).toBeCloseTo(2, 9)
  })

  test('refuses a weight of nothing', () => {
    expect(() => growthFactor([{ lagWeight: 0, harvestWeight: 0.1 }])).toThrow(RangeError)
  })
})

describe('vinesToCount', () => {
  test.each([
    { cv: -0.1 },
    { cv: Number.POSITIVE_INFINITY },
    { error: 0 },
    { vines: 0 },
    { error: Number.NaN },
  ])('refuses %j', (wrong) => {
    expect(() => vinesToCount({ cv: 0.3, error: 0.1, vines: 800, ...wrong })).toThrow('a cv of zero or more')
  })

  test('vines all alike need two, and an error that the other parts use up cannot be had', () => {
    expect(vinesToCount({ cv: 0, error: 0.1 })).toEqual({ needed: 2, more: 2 })
    expect(vinesToCount({ cv: 0.3, error: 0.1, otherError: 0.1 })).toBeNull()
    expect(vinesToCount({ cv: 0.3, error: 0.1, otherError: 0.099 })?.needed).toBeGreaterThan(1000)
  })

  test('is the smallest number that reaches the wanted error', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 90 }),
        fc.integer({ min: 3, max: 40 }),
        fc.integer({ min: 50, max: 3000 }),
        (cv, error, vines) => {
          const { needed } = vinesToCount({ cv: cv / 100, error: error / 100, vines })!
          const half = (n: number) => {
            const { high, estimate } = cropEstimate({
              vines,
              bunches: { mean: 100, sd: cv, n },
              weight: { mean: 1, sd: 0, n: 10 },
              factor: factorAtHarvest,
            })
            return high! / estimate - 1
          }
          expect(half(needed!)).toBeLessThanOrEqual(error / 100 + 1e-9)
          if (needed! > 2) expect(half(needed! - 1)).toBeGreaterThan(error / 100 - 1e-9)
        },
      ),
    )
  })

  test('counts what is counted', () => {
    expect(vinesToCount({ cv: 0.3, error: 0.1, counted: 30 })).toEqual({ needed: 38, more: 8 })
    expect(vinesToCount({ cv: 0.3, error: 0.1, counted: 50 })?.more).toBe(0)
    expect(vinesToCount({ cv: 0.3, error: 0.01, vines: 60 })?.needed).toBeLessThanOrEqual(60)
  })

  test('when the factor alone exceeds the error, no count is enough', () => {
    expect(vinesToCount({ cv: 0.3, error: 0.1, otherError: 0.2 })).toBeNull()
    expect(vinesToCount({ cv: 0.3, error: 0.1, otherError: 0.08 })?.needed).toBeGreaterThan(38)
  })

  test('asks for a mean, not for a proportion, which would want 260 of 800', () => {
    expect(vinesToCount({ cv: 0.3, error: 0.05, vines: 800 })?.needed).toBeLessThan(130)
  })

  test('refuses the impossible', () => {
    expect(() => vinesToCount({ cv: -0.1, error: 0.1 })).toThrow(RangeError)
    expect(() => vinesToCount({ cv: 0.3, error: 0 })).toThrow(RangeError)
    expect(() => vinesToCount({ cv: Number.NaN, error: 0.1 })).toThrow(RangeError)
  })
})

describe('thinning', () => {
  const now = { vines: 500, bunchWeight: 0.125, bunchesPerVine: 32 }
  test('keeps what the target needs', () => {
    expect(thinning({ ...now, target: 1250 })).toEqual({ keep: 20, drop: 12, share: 0.375 })
  })
  test('drops nothing from a crop below the target', () => {
    expect(thinning({ ...now, target: 5000 })).toEqual({ keep: 32, drop: 0, share: 0 })
  })
  test('refuses a target of nothing', () => {
    expect(() => thinning({ ...now, target: 0 })).toThrow(RangeError)
  })
})

describe('estimate and actual', () => {
  test('sign and base of the error', () => {
    expect(estimateError({ estimate: 1200, actual: 1000 })).toBeCloseTo(0.2, 12)
    expect(estimateError({ estimate: 800, actual: 1000 })).toBeCloseTo(-0.2, 12)
    expect(() => estimateError({ estimate: 800, actual: 0 })).toThrow(RangeError)
  })

  test('the bias learned undoes a constant one', () => {
    const seasons = [1000, 2000, 1500].map((actual) => ({ estimate: actual * 1.25, actual }))
    const bias = learnedBias(seasons)
    expect(bias.factor).toBeCloseTo(0.8, 9)
    expect(bias.low).toBeCloseTo(0.8, 9)
    expect(bias.seasons).toBe(3)
  })

  test('over and under by the same ratio cancel', () => {
    const bias = learnedBias([
      { estimate: 2000, actual: 1000 },
      { estimate: 1000, actual: 2000 },
    ])
    expect(bias.factor).toBeCloseTo(1, 9)
    expect(bias.low).toBeLessThan(1)
    expect(bias.high).toBeGreaterThan(1)
  })

  test('says when seasons lack', () => {
    expect(learnedBias([])).toMatchObject({ factor: null, low: null, seasons: 0 })
    const one = learnedBias([{ estimate: 1000, actual: 900 }])
    expect(one).toMatchObject({ low: null, high: null, seasons: 1 })
    expect(one.factor).toBeCloseTo(0.9, 9)
    expect(one.reason).toMatch(/one season/)
  })
})
