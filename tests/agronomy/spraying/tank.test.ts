import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { amountsPerFill, fillTanks } from '../../../src/agronomy/spraying/tank.ts'

const sum = (figures: number[]) => figures.reduce((total, figure) => total + figure, 0)
const area = fc.double({ min: 0.001, max: 200, noNaN: true })
const water = fc.double({ min: 20, max: 2000, noNaN: true })
const tank = fc.double({ min: 50, max: 4000, noNaN: true })

describe('fills', () => {
  test('600 L from a tank of 200 L are three full tanks and no rest', () => {
    expect(fillTanks({ volume: 600, tank: 200 })).toEqual({
      fills: [200, 200, 200],
      fullTanks: 3,
      lastTank: 0,
      toAdd: [200, 200, 200],
      tooMuch: 0,
    })
  })

  test.each([
    [0.1 + 0.2, 0.3, 1],
    [0.3, 0.1, 3],
    [0.1 * 3, 0.1, 3],
    [0.7 * 300, 210, 1],
    [1.1 * 300, 330, 1],
    [4.35 * 100, 435, 1],
    [0.57 * 100, 19, 3],
    [600 - 1e-10, 200, 3],
  ])('%d L in a tank of %d L are %d full tanks whatever the binary fractions', (volume, size, full) => {
    const got = fillTanks({ volume, tank: size })
    expect(got.fullTanks).toBe(full)
    expect(got.lastTank).toBe(0)
    expect(got.fills).toHaveLength(full)
  })

  test('a millilitre over is a fill of its own', () => {
    const got = fillTanks({ volume: 600.001, tank: 200 })
    expect(got.fills).toHaveLength(4)
    expect(got.lastTank).toBeCloseTo(0.001, 9)
  })

  test('a millilitre short of full tanks leaves a part tank', () => {
    const got = fillTanks({ volume: 599.999, tank: 200 })
    expect(got.fullTanks).toBe(2)
    expect(got.lastTank).toBeCloseTo(199.999, 9)
  })

  test('a full tank of water may stand there already, and 9999 fills are the most', () => {
    expect(fillTanks({ volume: 300, tank: 200, alreadyInTank: 200 }).toAdd).toEqual([0, 100])
    expect(() => fillTanks({ volume: 300, tank: 200, alreadyInTank: 200.1 })).toThrow('at most 200 L')
    expect(fillTanks({ volume: 9999, tank: 1 }).fills).toHaveLength(9999)
    expect(() => fillTanks({ volume: 10_000, tank: 1 })).toThrow('fewer than 10000 fills')
  })

  test('less than a tank is one part tank', () => {
    expect(fillTanks({ volume: 120, tank: 200 })).toMatchObject({ fills: [120], fullTanks: 0, lastTank: 120 })
  })

  test('even fills share the volume', () => {
    expect(fillTanks({ volume: 960, tank: 300, even: true })).toMatchObject({
      fills: [240, 240, 240, 240],
      fullTanks: 0,
      lastTank: 240,
    })
  })

  test('even fills of a whole number of tanks are full tanks', () => {
    expect(fillTanks({ volume: 600, tank: 200, even: true })).toEqual(fillTanks({ volume: 600, tank: 200 }))
  })

  test('water in the tank lessens what the first fill needs', () => {
    const got = fillTanks({ volume: 500, tank: 200, alreadyInTank: 60 })
    expect(got.fills).toEqual([200, 200, 100])
    expect(got.toAdd).toEqual([140, 200, 100])
    expect(got.tooMuch).toBe(0)
  })

  test('more water in the tank than the job needs is said', () => {
    expect(fillTanks({ volume: 40, tank: 200, alreadyInTank: 50 })).toMatchObject({ toAdd: [0], tooMuch: 10 })
    expect(fillTanks({ volume: 50, tank: 200, alreadyInTank: 50 })).toMatchObject({ toAdd: [0], tooMuch: 0 })
  })

  test('more than the tank holds, nonsense and countless fills are refused', () => {
    expect(() => fillTanks({ volume: 500, tank: 200, alreadyInTank: 201 })).toThrow(RangeError)
    expect(() => fillTanks({ volume: 500, tank: 200, alreadyInTank: -1 })).toThrow(RangeError)
    for (const bad of [0, -5, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => fillTanks({ volume: bad, tank: 200 })).toThrow(RangeError)
      expect(() => fillTanks({ volume: 200, tank: bad })).toThrow(RangeError)
    }
    expect(() => fillTanks({ volume: 1e12, tank: 1 })).toThrow('fewer than 10000 fills')
  })

  test('fills make up the volume, none above the tank, none empty', () => {
    fc.assert(
      fc.property(area, water, tank, fc.boolean(), (ha, perHa, size, even) => {
        const volume = ha * perHa
        const { fills, fullTanks, lastTank } = fillTanks({ volume, tank: size, even })
        expect(sum(fills) / volume).toBeCloseTo(1, 8)
        expect(fills.every((fill) => fill > 0 && fill <= size * (1 + 1e-12))).toBe(true)
        if (!even) expect(fullTanks + (lastTank > 0 ? 1 : 0)).toBe(fills.length)
      }),
      { numRuns: 500 },
    )
  })
})

describe('amounts per fill', () => {
  test('a part tank takes its part', () => {
    const got = amountsPerFill(3.6, [300, 300, 300, 60])
    expect(got.slice(0, 3)).toEqual([1.125, 1.125, 1.125])
    expect(got[3]).toBeCloseTo(0.225, 12)
    expect(sum(got)).toBe(3.6)
  })

  test('thirds add up again', () => {
    expect(sum(amountsPerFill(1, [1, 1, 1]))).toBe(1)
    expect(sum(amountsPerFill(0.1, [7, 7, 7]))).toBe(0.1)
  })

  test('nothing shares out as nothing', () => {
    expect(amountsPerFill(0, [200, 50])).toEqual([0, 0])
  })

  test('they sum to the total exactly, forwards and backwards, for any area, volume and tank', () => {
    const dose = fc.double({ min: 1e-4, max: 50, noNaN: true })
    fc.assert(
      fc.property(area, water, tank, dose, fc.boolean(), (ha, perHa, size, perHectare, even) => {
        const total = perHectare * ha
        const { fills } = fillTanks({ volume: ha * perHa, tank: size, even })
        const amounts = amountsPerFill(total, fills)
        expect(sum(amounts)).toBe(total)
        expect(sum(amounts.toReversed())).toBe(total)
        const volume = sum(fills)
        const off = amounts.map((amount, index) => Math.abs(amount - (total * fills[index]!) / volume))
        expect(off.every((each) => each <= 1e-9 * total)).toBe(true)
        expect(amounts.every((amount) => amount >= 0)).toBe(true)
      }),
      { numRuns: 500 },
    )
  })

  test('they sum exactly for fills of any sizes and totals of any size', () => {
    const fills = fc.array(fc.double({ min: 1e-9, max: 1e9, noNaN: true }), { minLength: 1, maxLength: 30 })
    const total = fc.double({ min: 0, max: 1e15, noNaN: true })
    fc.assert(
      fc.property(total, fills, (amount, sizes) => {
        const amounts = amountsPerFill(amount, sizes)
        expect(sum(amounts)).toBe(amount)
        expect(amounts.every((each) => each >= 0)).toBe(true)
      }),
      { numRuns: 500 },
    )
  })

  test('scaling the area scales the total and keeps a full tank as it is', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.integer({ min: 2, max: 9 }),
        (ha, times) => {
          const mix = (size: number) =>
            amountsPerFill(3 * size, fillTanks({ volume: 300 * size, tank: 200 }).fills)
          expect(sum(mix(ha * times)) / sum(mix(ha))).toBeCloseTo(times, 9)
          expect(mix(ha * times)[0]).toBeCloseTo(mix(ha)[0]!, 9)
        },
      ),
    )
  })

  test('refuses no fills, an empty fill and a negative total', () => {
    expect(() => amountsPerFill(1, [])).toThrow('at least 1 fill')
    expect(() => amountsPerFill(1, [200, 0])).toThrow(RangeError)
    expect(() => amountsPerFill(-1, [200])).toThrow(RangeError)
    expect(() => amountsPerFill(Number.NaN, [200])).toThrow(RangeError)
  })
})
