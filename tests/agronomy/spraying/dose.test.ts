import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Dose, resolveDose } from '../../../src/agronomy/spraying/dose.ts'

type DoseContext = NonNullable<Parameters<typeof resolveDose>[1]>

const full: DoseContext = { waterPerHa: 500, dilutePerHa: 1500, leafWallPerHa: 12_000 }

describe('each form gives both amount and concentration', () => {
  const forms: [string, Dose, number, number][] = [
    ['3 kg/ha', { basis: 'ground', unit: 'kg', perHa: 3 }, 3, 6],
    ['12 g/L', { basis: 'spray', unit: 'kg', perLitre: 12 }, 6, 12],
    ['100 mL/hL of spray', { basis: 'spray', unit: 'L', perLitre: 1 }, 0.5, 1],
    ['100 mL/100 L dilute', { basis: 'dilute', unit: 'L', perLitre: 1 }, 1.5, 3],
    ['0.5 L/10 000 m² of leaf wall', { basis: 'leaf-wall', unit: 'L', per10000m2: 0.5 }, 0.6, 1.2],
  ]
  test.each(forms)('%s', (_, dose, perHa, concentration) => {
    const got = resolveDose(dose, full)
    expect(got.perHa).toBeCloseTo(perHa, 12)
    expect(got.concentration).toBeCloseTo(concentration, 12)
    expect(got).toMatchObject({ capped: false, missing: null })
    expect(got.concentrationFactor).toBe(dose.basis === 'dilute' ? 3 : null)
  })
})

describe('what is missing is named', () => {
  const cases: [Dose, DoseContext, keyof DoseContext, number | null, number | null][] = [
    [{ basis: 'ground', unit: 'kg', perHa: 3 }, {}, 'waterPerHa', 3, null],
    [{ basis: 'spray', unit: 'kg', perLitre: 12 }, {}, 'waterPerHa', null, 12],
    [{ basis: 'dilute', unit: 'L', perLitre: 1 }, { waterPerHa: 500 }, 'dilutePerHa', null, null],
    [{ basis: 'dilute', unit: 'L', perLitre: 1 }, { dilutePerHa: 1500 }, 'waterPerHa', 1.5, null],
    [{ basis: 'leaf-wall', unit: 'L', per10000m2: 0.5 }, { waterPerHa: 500 }, 'leafWallPerHa', null, null],
  ]
  test.each(cases)('%j with %j misses %s', (dose, context, missing, perHa, concentration) => {
    expect(resolveDose(dose, context)).toMatchObject({ missing, perHa, concentration })
  })
})

describe('the cap per ground area', () => {
  const capped = (maxPerHa: number) =>
    resolveDose(
      { basis: 'leaf-wall', unit: 'L', per10000m2: 0.5, maxPerHa },
      { leafWallPerHa: 12_000, waterPerHa: 300 },
    )

  test('is silent at the maximum and just below it', () => {
    expect(capped(0.6)).toMatchObject({ perHa: 0.6, capped: false })
    expect(capped(0.61)).toMatchObject({ perHa: 0.6, capped: false })
  })

  test('is refused where it is nothing', () => {
    expect(() => capped(0)).toThrow(/maxPerHa/)
    expect(() => capped(Number.NaN)).toThrow(/maxPerHa/)
  })

  test('holds the dose, and the concentration with it, just above', () => {
    expect(capped(0.59)).toMatchObject({ perHa: 0.59, capped: true })
    expect(capped(0.59).concentration).toBeCloseTo(0.59 / 0.3, 12)
  })
})

const amount = fc.double({ min: 0, max: 1000, noNaN: true })
const anyDose: fc.Arbitrary<Dose> = fc.oneof(
  amount.map((perHa): Dose => ({ basis: 'ground', unit: 'kg', perHa })),
  amount.map((perLitre): Dose => ({ basis: 'spray', unit: 'L', perLitre })),
  amount.map((perLitre): Dose => ({ basis: 'dilute', unit: 'kg', perLitre })),
  amount.map((per10000m2): Dose => ({ basis: 'leaf-wall', unit: 'L', per10000m2, maxPerHa: 5 })),
)
const size = fc.option(fc.double({ min: 1e-3, max: 1e5, noNaN: true }), { nil: undefined })
const anyContext = fc.record({
  waterPerHa: size,
  dilutePerHa: size,
  leafWallPerHa: size,
})

test('no combination gives a negative, NaN or infinite figure, and a null always names what is missing', () => {
  fc.assert(
    fc.property(anyDose, anyContext, (dose, context) => {
      const got = resolveDose(dose, context)
      for (const figure of [got.perHa, got.concentration]) {
        if (figure === null) expect(got.missing).not.toBeNull()
        else expect(figure >= 0 && Number.isFinite(figure)).toBe(true)
      }
    }),
    { numRuns: 2000 },
  )
})

test('the concentration times the water is the amount per hectare', () => {
  fc.assert(
    fc.property(anyDose, (dose) => {
      const got = resolveDose(dose, full)
      expect((got.concentration! * 500) / 1000).toBeCloseTo(got.perHa!, 9)
    }),
  )
})

test('a dose per dilute volume is the same per hectare whatever is applied', () => {
  const perHa = (waterPerHa: number) =>
    resolveDose({ basis: 'dilute', unit: 'L', perLitre: 2 }, { dilutePerHa: 1200, waterPerHa }).perHa
  expect(perHa(200)).toBe(perHa(1200))
})

test.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s as a dose or a volume', (bad) => {
  expect(() => resolveDose({ basis: 'ground', unit: 'kg', perHa: bad })).toThrow(RangeError)
  expect(() => resolveDose({ basis: 'spray', unit: 'kg', perLitre: bad }, { waterPerHa: 300 })).toThrow(
    RangeError,
  )
  expect(() => resolveDose({ basis: 'spray', unit: 'kg', perLitre: bad })).toThrow(RangeError)
  expect(() => resolveDose({ basis: 'ground', unit: 'kg', perHa: 1 }, { waterPerHa: bad })).toThrow(
    RangeError,
  )
})
