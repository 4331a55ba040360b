import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { harvestPlan } from '../../../src/agronomy/crop/harvest-plan.ts'
import { pickingRate } from '../../../src/agronomy/crop/picking-rate.ts'

const range = (low: number | null, likely: number, high: number | null) => ({ low, likely, high })
const plan = { hours: 6, crate: 12, juicePerTonne: 620 }

describe('harvestPlan', () => {
  test('low joins the low crop with the high rate', () => {
    const { personHours, people } = harvestPlan({
      ...plan,
      crop: range(900, 1200, 1500),
      rate: range(30, 40, 50),
    })
    expect(personHours).toEqual({ low: 18, likely: 30, high: 50 })
    expect(people).toEqual({ low: 3, likely: 5, high: 9 })
  })

  test('whole crates stay whole in spite of floats', () => {
    const crates = (kg: number, crate: number) =>
      harvestPlan({ ...plan, crate, crop: range(null, kg, null), rate: range(null, 40, null) }).crates.likely
    expect(crates(0.1 + 0.2, 0.1)).toBe(3) // 0.30000000000000004 / 0.1
    expect(crates(1200, 12)).toBe(100)
    expect(crates(1200.5, 12)).toBe(101)
    expect(crates(0, 12)).toBe(0)
  })

  test('whole bottles stay whole in spite of floats', () => {
    const { bottles } = harvestPlan({
      ...plan,
      bottle: 0.1,
      juicePerTonne: 300,
      crop: range(null, 1, null),
      rate: range(null, 40, null),
    })
    expect(bottles.likely).toBe(3) // 0.3 / 0.1 is 2.9999999999999996
  })

  test('tank space takes headspace, and presses only where given', () => {
    const one = harvestPlan({
      ...plan,
      crop: range(null, 1000, null),
      rate: range(null, 40, null),
      headspace: 0.25,
    })
    expect(one.tank.likely).toBe(775)
    expect(one.pressLoads).toBeNull()
    const two = harvestPlan({
      ...plan,
      crop: range(null, 1000, null),
      rate: range(null, 40, null),
      pressLoad: 300,
    })
    expect(two.pressLoads!.likely).toBe(4)
  })

  test('an unknown end stays unknown', () => {
    const { personHours, juice } = harvestPlan({
      ...plan,
      crop: range(null, 1000, null),
      rate: range(30, 40, 50),
    })
    expect(personHours).toEqual({ low: null, likely: 25, high: null })
    expect(juice).toEqual({ low: null, likely: 620, high: null })
  })

  test.each([
    { hours: 0 },
    { crate: 0 },
    { crate: Number.NaN },
    { rate: range(null, 0, null) },
    { crop: range(null, -1, null) },
    { crop: range(Number.NaN, 1, null) },
    { headspace: -0.1 },
  ])('refuses %o', (wrong) => {
    const sound = { ...plan, crop: range(null, 1, null), rate: range(null, 40, null) }
    expect(() => harvestPlan({ ...sound, ...wrong })).toThrow(RangeError)
  })

  test('low, likely and high stay in order, and blocks add up in what is not rounded', () => {
    const kg = fc.tuple(
      fc.integer({ min: 0, max: 3000 }),
      fc.integer({ min: 0, max: 900 }),
      fc.integer({ min: 0, max: 900 }),
    )
    fc.assert(
      fc.property(fc.array(kg, { minLength: 1, maxLength: 5 }), (blocks) => {
        const rate = range(30, 40, 50)
        const crops = blocks.map(([low, a, b]) => range(low, low + a, low + a + b))
        const plans = crops.map((crop) => harvestPlan({ ...plan, crop, rate }))
        for (const each of plans) {
          for (const figure of [each.crates, each.personHours, each.people, each.juice, each.bottles]) {
            expect(figure.low).toBeLessThanOrEqual(figure.likely)
            expect(figure.likely).toBeLessThanOrEqual(figure.high!)
          }
        }
        const total = crops.reduce((sum, { likely }) => sum + likely, 0)
        const whole = harvestPlan({ ...plan, crop: range(null, total, null), rate })
        const add = (figure: 'personHours' | 'juice' | 'crates') =>
          plans.reduce((sum, each) => sum + each[figure].likely, 0)
        expect(add('personHours')).toBeCloseTo(whole.personHours.likely, 6)
        expect(add('juice')).toBeCloseTo(whole.juice.likely, 6)
        expect(add('crates')).toBeGreaterThanOrEqual(whole.crates.likely) // each block fills its own last crate
      }),
    )
  })
})

describe('pickingRate', () => {
  test('is all kg over all person-hours, not the mean of the rates', () => {
    const { rate, low, high, picks } = pickingRate([
      { weight: 1820, people: 6, hours: 5.5 },
      { weight: 300, people: 2, hours: 4 },
    ])
    expect(rate).toBeCloseTo(2120 / 41, 9)
    expect(low).toBeLessThan(rate!)
    expect(high).toBeGreaterThan(rate!)
    expect(picks).toBe(2)
  })

  test('low and high are the interval of one more pick, by hand', () => {
    // 55.15, 37.5 and 53.33 kg per person-hour; logarithms of their shares of the rate have s = 0.21369 (n - 1);
    // t(0.95, 2) = 2.91999; exp(2.91999 x 0.21369 x sqrt(1 + 1/3)) = 2.05546.
    const { rate, low, high } = pickingRate([
      { weight: 1820, people: 6, hours: 5.5 },
      { weight: 300, people: 2, hours: 4 },
      { weight: 640, people: 4, hours: 3 },
    ])
    expect(rate).toBeCloseTo(2760 / 53, 9)
    expect(low).toBeCloseTo(25.3352, 3)
    expect(high).toBeCloseTo(107.0392, 3)
  })

  test('picks alike have no spread', () => {
    const pick = { weight: 400, people: 2, hours: 4 }
    const { rate, low, high } = pickingRate([pick, pick, pick])
    expect([rate, low, high].map((each) => Math.round(each! * 1e9) / 1e9)).toEqual([50, 50, 50])
  })

  test('says when picks lack', () => {
    expect(pickingRate([])).toMatchObject({ rate: null, low: null, picks: 0 })
    const one = pickingRate([{ weight: 400, people: 2, hours: 4 }])
    expect(one).toMatchObject({ rate: 50, low: null, high: null, picks: 1 })
  })

  test('refuses a pick without hours', () => {
    expect(() => pickingRate([{ weight: 400, people: 2, hours: 0 }])).toThrow(RangeError)
  })
})
