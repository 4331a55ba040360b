import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Dose, resolveDose } from '../../../src/agronomy/spraying/dose.ts'
import { amountsPerFill, fillTanks } from '../../../src/agronomy/spraying/tank.ts'

const figure = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const anyDose: fc.Arbitrary<Dose> = fc.oneof(
  figure(0, 100).map((perHa): Dose => ({ basis: 'ground', unit: 'kg', perHa })),
  figure(0, 100).map((perLitre): Dose => ({ basis: 'spray', unit: 'kg', perLitre })),
  figure(0, 100).map((perLitre): Dose => ({ basis: 'dilute', unit: 'L', perLitre, maxPerHa: 4 })),
  figure(0, 10).map((per10000m2): Dose => ({ basis: 'leaf-wall', unit: 'L', per10000m2, maxPerHa: 2 })),
)
const job = fc.record({
  dose: anyDose,
  area: figure(0.001, 50),
  water: figure(30, 2000),
  tank: figure(25, 4000),
  even: fc.boolean(),
})

function mix({
  dose,
  area,
  water,
  tank,
  even,
}: {
  dose: Dose
  area: number
  water: number
  tank: number
  even: boolean
}) {
  const { perHa } = resolveDose(dose, { waterPerHa: water, dilutePerHa: 1500, leafWallPerHa: 12_000 })
  const { fills, toAdd } = fillTanks({ volume: area * water, tank, even })
  return { total: perHa! * area, fills, toAdd, amounts: amountsPerFill(perHa! * area, fills) }
}

test('for any dose, area, water and tank the fills hold the total, and nothing is negative or not finite', () => {
  fc.assert(
    fc.property(job, (asked) => {
      const { total, fills, toAdd, amounts } = mix(asked)
      expect(amounts.reduce((sum, amount) => sum + amount, 0)).toBe(total)
      const figures = [total, ...fills, ...toAdd, ...amounts]
      expect(figures.every((each) => each >= 0 && Number.isFinite(each))).toBe(true)
    }),
    { numRuns: 500 },
  )
})

test('scaling the area scales the total', () => {
  fc.assert(
    fc.property(job, figure(0.1, 2), (asked, times) => {
      const once = mix(asked).total
      const scaled = mix({ ...asked, area: asked.area * times }).total
      expect(Math.abs(scaled - once * times)).toBeLessThanOrEqual(1e-9 * once * times + 1e-15)
    }),
  )
})

test('every tank filled to the mark holds the same amount', () => {
  const { amounts, fills } = mix({
    dose: { basis: 'ground', unit: 'kg', perHa: 3 },
    area: 0.81,
    water: 300,
    tank: 200,
    even: false,
  })
  expect(fills[1]).toBeCloseTo(43, 9)
  expect(amounts[0]).toBeCloseTo(2, 12)
  expect(amounts[1]).toBeCloseTo(0.43, 12)
})
