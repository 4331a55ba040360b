import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readSample } from '../../../src/facts/ripeness/sample.ts'
import { type Sample, sample } from '../../../src/records/kinds/sample.ts'

const read = (fields: object) =>
  readSample(sample().parse({ date: '2026-09-12', block: 'upper', ...fields }) as Sample)

describe('readSample', () => {
  test('one pooled reading has a mean and no interval', () => {
    expect(read({ berries: 100, brix: 19.6 }).brix).toMatchObject({ n: 1, mean: 19.6, low: null, high: null })
  })

  test('five lots: 19.80 with 95 % from 19.22 to 20.38, worked out by hand', () => {
    const { brix } = read({ brix: [19.2, 20.1, 19.6, 20.4, 19.7] })
    expect(brix!.mean).toBeCloseTo(19.8, 2)
    expect(brix!.low).toBeCloseTo(19.22, 2)
    expect(brix!.high).toBeCloseTo(20.38, 2)
  })

  test('two readings have no interval', () => {
    expect(read({ brix: [19, 20] }).brix).toMatchObject({ n: 2, low: null, high: null })
  })

  test('22.0 read at 12 °C without compensation is 21.46 (OIV table), said to be corrected and not from memory', () => {
    const facts = read({ brix: 22, temperature: '12 C', compensated: false })
    expect(facts.brix!.mean).toBeCloseTo(21.46, 2)
    expect(facts.reading).toBe(22)
    expect(facts.remarks.join()).toMatch(/OIV table$/)
  })

  test('above 20 °C the table is from memory, and the remark says so', () => {
    expect(read({ brix: 22, temperature: '26 C', compensated: false }).remarks.join()).toMatch(/from memory/)
  })

  test('a compensating refractometer is not corrected twice', () => {
    expect(read({ brix: 22, temperature: '12 C', compensated: true }).brix!.mean).toBe(22)
    expect(read({ brix: 22, temperature: '12 C', compensated: true }).remarks).toEqual([])
    const unsaid = read({ brix: 22, temperature: '12 C' })
    expect(unsaid.brix!.mean).toBe(22)
    expect(unsaid.remarks.join()).toMatch(/taken as corrected by the instrument/)
    expect(read({ brix: 22, temperature: '20 C' }).remarks).toEqual([])
  })

  test.each([
    [{ brix: 22, compensated: false }, /no temperature was recorded/],
    [{ brix: 22, temperature: '35 C', compensated: false }, /5 to 30 °C/],
    [{ brix: 8, temperature: '12 C', compensated: false }, /10 to 30 Brix/],
    [{ brix: 20, fermenting: true }, /ferment/],
    [{ density: 0.995 }, /0 to 40 Brix/],
  ])('%j gives no Brix, with the reason', (fields, reason) => {
    const facts = read(fields)
    expect(facts.brix).toBeNull()
    expect(facts.why).toMatch(reason)
  })

  test('Oechsle, Baumé and density come to the same Brix', () => {
    const [oechsle, density, baume] = [
      read({ oechsle: 92 }),
      read({ density: 1.092 }),
      read({ baume: 12.216 }),
    ]
    expect(oechsle.brix!.mean).toBeCloseTo(22.01, 2)
    expect(density.brix!.mean).toBeCloseTo(22.01, 2)
    expect(baume.brix!.mean).toBeCloseTo(22.01, 1)
  })

  test('a hydrometer is not corrected, and the remark says so', () => {
    expect(read({ oechsle: 92, temperature: '26 C' }).remarks.join()).toMatch(/26 °C and not corrected/)
    expect(read({ oechsle: 92 }).remarks.join()).toBe('Brix calculated from Oechsle')
  })

  test('fermenting juice gives neither sugar nor acid', () => {
    expect(read({ brix: 20, ta: '8 g/L', ph: 3.2, fermenting: true })).toMatchObject({ ta: null, ph: null })
  })

  test('titration: 12.0 mL of 0.1 N on 15 mL is 6.0 g/L (Handbook of Enology; worked example)', () => {
    const facts = read({ titration: { sample: '15 mL', base: '12 mL', normality: 0.1 }, end_point: 8.2 })
    expect(facts.ta!.mean).toBeCloseTo(6, 9)
    expect(facts.endPoint).toBe(8.2)
    expect(facts.brix).toBeNull()
    expect(facts.why).toBeNull()
    expect(facts.remarks).toEqual(['acid calculated from the titration, as tartaric'])
  })

  test('acid as sulphuric is converted to tartaric: 3.92 is 6.0 g/L', () => {
    expect(read({ ta: '3.92 g/L', ta_as: 'sulphuric' }).ta!.mean).toBeCloseTo(6, 2)
  })

  test('repeating the same readings never widens the interval', () => {
    const readings = fc.array(fc.integer({ min: 140, max: 240 }), { minLength: 3, maxLength: 12 })
    fc.assert(
      fc.property(readings, (tenths) => {
        const brix = tenths.map((each) => each / 10)
        const [once, twice] = [read({ brix }).brix!, read({ brix: [...brix, ...brix] }).brix!]
        expect(twice.high! - twice.low!).toBeLessThanOrEqual(once.high! - once.low! + 1e-12)
      }),
    )
  })

  test('berries, pH and acid are given with the sugar, and are null where not measured', () => {
    expect(read({ brix: 20, ph: 3.1, ta: '8 g/L', berry_weight: '1.4 g', end_point: 7 })).toMatchObject({
      reading: 20,
      readings: [20],
      ph: { n: 1, mean: 3.1 },
      ta: { n: 1, mean: 8 },
      berryWeight: 1.4,
      endPoint: 7,
      remarks: [],
      why: null,
    })
    expect(read({ brix: [20, 21] })).toMatchObject({
      reading: 20.5,
      readings: [20, 21],
      ph: null,
      ta: null,
      berryWeight: null,
      endPoint: null,
    })
    expect(read({ ph: 3.1 })).toMatchObject({
      brix: null,
      reading: null,
      readings: [],
      remarks: [],
      why: null,
    })
  })

  test.each([
    [{ brix: 41 }, '41 Brix is beyond the 40 that the formulas are meant for'],
    [{ brix: [20, 40.1] }, '40.1 Brix is beyond the 40 that the formulas are meant for'],
    [{ oechsle: 220 }, 'the Oechsle is outside the range of must, 0 to 40 Brix'],
    [{ baume: 25 }, 'the Baumé is outside the range of must, 0 to 40 Brix'],
    [{ density: 0.995 }, 'the specific gravity is outside the range of must, 0 to 40 Brix'],
    [
      { brix: 20, compensated: false },
      'the refractometer does not compensate and no temperature was recorded',
    ],
  ])('%j: why there is no Brix', (fields, why) => {
    expect(read({ ...fields, ph: 3.1, ta: '8 g/L', berry_weight: '1.4 g' })).toMatchObject({
      brix: null,
      reading: null,
      readings: [],
      remarks: [],
      ph: { mean: 3.1 },
      ta: { mean: 8 },
      berryWeight: 1.4,
      why,
    })
  })

  test('40 Brix is still within the range', () => expect(read({ brix: 40 }).brix!.mean).toBe(40))

  test('one reading that cannot be corrected leaves none', () => {
    const facts = read({ brix: [22, 8], temperature: '12 C', compensated: false })
    expect([facts.brix, facts.why]).toEqual([null, expect.stringMatching(/^no correction for 12 °C: /)])
  })

  test('one of several readings corrected from memory is enough for the remark', () => {
    expect(read({ brix: [22, 20], temperature: '26 C', compensated: false }).remarks).toEqual([
      'corrected from 26 °C to 20 °C by the OIV table: 21.43 to 21.49 Brix. This correction is from memory, within 0.03 Brix. For one figure, let the juice come to 20 °C and read again',
    ])
    expect(read({ brix: 22, temperature: '12 C', compensated: false }).remarks).toEqual([
      'corrected from 12 °C to 20 °C by the OIV table',
    ])
    expect(read({ brix: 22, temperature: '13 C', compensated: false }).remarks).toEqual([
      'corrected from 13 °C to 20 °C by the OIV table: 21.50 to 21.56 Brix. This correction is from memory, within 0.03 Brix. For one figure, let the juice come to 20 °C and read again',
    ])
  })

  test('the uncertainty of the table widens the interval of a mean', () => {
    const [at12, at13, at14] = ['12 C', '13 C', '14 C'].map(
      (temperature) => read({ brix: [22, 21, 23], temperature, compensated: false }).brix!,
    )
    const width = ({ low, high }: { low: number | null; high: number | null }) => high! - low!
    expect(width(at13!)).toBeCloseTo(width(at12!) + 0.06, 1)
    expect(width(at13!)).toBeCloseTo(width(at14!) + 0.06, 1)
  })

  test('why a reading with a temperature was not corrected', () => {
    expect(read({ brix: 22, temperature: '12 C' }).remarks).toEqual([
      'read at 12 °C and taken as corrected by the instrument, since `compensated: false` is not written',
    ])
    expect(read({ oechsle: 92, temperature: '20 C' }).remarks).toEqual(['Brix calculated from Oechsle'])
    expect(read({ baume: 12, temperature: '26 C' }).remarks).toEqual([
      'Brix calculated from Baumé',
      'read at 26 °C and not corrected: the table is one for refractometers',
    ])
    expect(read({ density: 1.09 }).remarks).toEqual(['Brix calculated from specific gravity'])
  })

  test('how the acid was converted', () => {
    expect(read({ brix: 20, ta: '3.92 g/L', ta_as: 'sulphuric' }).remarks).toEqual([
      'acid written as sulphuric, shown as tartaric',
    ])
    expect(read({ ta: '3.92 g/L', ta_as: 'sulphuric' }).remarks).toHaveLength(1)
    expect(read({ ta: '6 g/L', ta_as: 'tartaric' })).toMatchObject({ remarks: [], ta: { mean: 6 } })
    expect(read({ ph: 3.1, ta_as: 'sulphuric' })).toMatchObject({ remarks: [], ta: null })
  })

  test('fermenting juice says why, and keeps what does not depend on it', () => {
    expect(read({ brix: 20, berry_weight: '1.4 g', end_point: 7, fermenting: true })).toEqual({
      brix: null,
      reading: null,
      readings: [],
      open: null,
      remarks: [],
      ph: null,
      ta: null,
      endPoint: 7,
      berryWeight: 1.4,
      why: 'the juice had begun to ferment: alcohol and gas disturb the reading, so it does not show sugar or acid of the berries',
    })
  })

  test('a sample is calculated once', () => {
    const one = sample().parse({ date: '2026-09-12', block: 'upper', brix: 20 }) as Sample
    expect(readSample(one)).toBe(readSample(one))
  })
})
