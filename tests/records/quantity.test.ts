import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { inUnitsOf, readQuantity, readRange } from '../../src/records/quantity.ts'
import { convert, measureOf, UNITS } from '../../src/records/units.ts'

describe('quantities that are read', () => {
  test.each([
    ['3 kg/ha', ['kg/ha'], 3, 3, 'kg/ha'],
    ['2-6 kg/ha', ['kg/ha'], 2, 6, 'kg/ha'],
    ['2 – 6 kg/ha', ['kg/ha'], 2, 6, 'kg/ha'],
    ['0.45ha', ['ha'], 0.45, 0.45, 'ha'],
    ['800 g/ha', ['kg/ha', 'L/ha'], 0.8, 0.8, 'kg/ha'],
    ['750 mL/ha', ['kg/ha', 'L/ha'], 0.75, 0.75, 'L/ha'],
    ['100 mL/hL', ['mL/L'], 1, 1, 'mL/L'],
    ['100 mL/100 L', ['mL/L'], 1, 1, 'mL/L'],
    ['0.5 L/10000 m2 leaf wall', ['L/ha leaf wall'], 0.5, 0.5, 'L/ha leaf wall'],
    ['20-22', [''], 20, 22, ''],
    ['-2 C', ['C'], -2, -2, 'C'],
    ['50 F', ['C'], 10, 10, 'C'],
    ['5 km/h', ['m/s'], 5 / 3.6, 5 / 3.6, 'm/s'],
    ['10 mph', ['m/s'], 4.4704, 4.4704, 'm/s'],
    ['135 l', ['L'], 135, 135, 'L'],
    ['21 days', ['d'], 21, 21, 'd'],
    ['1-2 weeks', ['d'], 7, 14, 'd'],
  ] as const)('%s', (text, accepts, low, high, unit) => {
    const { range, fault } = readRange(text, accepts)
    expect(fault).toBeUndefined()
    expect(range!.low).toBeCloseTo(low, 12)
    expect(range!.high).toBeCloseTo(high, 12)
    expect(range!.unit).toBe(unit)
  })
})

describe('quantities that are refused, with a way out', () => {
  test.each([
    ['3', ['kg/ha', 'L/ha'], 'needs-unit', 'kg/ha'],
    ['2,5 kg/ha', ['kg/ha'], 'decimal-comma', '2.5 kg/ha'],
    ['1,200 kg', ['kg'], 'decimal-comma', '1200 kg'],
    ['50 gal', ['L'], 'ambiguous-unit', '50 US gal'],
    ['50 gal/acre', ['L/ha'], 'ambiguous-unit', '50 imp gal/acre'],
    ['3 kg', ['kg/ha'], 'wrong-unit', 'kg/ha'],
    ['3 kgs/ha', ['kg/ha'], 'unknown-unit', 'kg/ha'],
    ['3 KG/HA', ['kg/ha'], 'unknown-unit', 'kg/ha'],
    ['lots', ['kg'], 'not-a-quantity', '3 kg'],
    ['6-2 kg/ha', ['kg/ha'], 'not-a-quantity', 'lower'],
    ['1_000 kg', ['kg'], 'unknown-unit', 'kg'],
    ['1e400 kg', ['kg'], 'unknown-unit', 'kg'],
    ['', ['kg'], 'not-a-quantity', 'kg'],
  ] as const)('%s', (text, accepts, name, help) => {
    const { fault } = readRange(text, accepts)
    expect(fault?.name).toBe(name)
    expect(fault?.help).toContain(help)
  })

  test('a range where one value is wanted', () => {
    expect(readQuantity('2-6 kg/ha', ['kg/ha']).fault?.name).toBe('not-a-quantity')
  })
})

describe('units', () => {
  const names = [...UNITS.keys()]

  test('a value converted there and back is itself', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...names),
        fc.constantFrom(...names),
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        (a, b, value) => {
          fc.pre(measureOf(a)!.kind === measureOf(b)!.kind)
          expect(Math.abs(convert(convert(value, a, b), b, a) - value)).toBeLessThanOrEqual(
            1e-9 * Math.max(1, Math.abs(value)),
          )
        },
      ),
    )
  })

  test('two kinds of measure are never converted into each other', () => {
    expect(() => convert(1, 'kg', 'L')).toThrow(RangeError)
    expect(() => convert(1, 'kg', 'furlong')).toThrow(RangeError)
  })

  test('no text makes the reader throw or yields a number that is not finite', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 20 }), (text) => {
        const { range } = readRange(text, ['kg/ha', 'L/ha', ''])
        if (range) expect(Number.isFinite(range.low) && Number.isFinite(range.high)).toBe(true)
      }),
      { numRuns: 2000 },
    )
  })
})

test.each([
  ['30', ['L/ha', 'L'], 'metric', 'write the unit: L/ha, mL/ha, L, mL, hL'],
  [
    '30',
    ['L/ha', 'L'],
    'us',
    'write the unit: US gal/acre, US fl oz/acre, US pt/acre, US gal, US fl oz, US pt',
  ],
  ['30', ['ha'], 'imperial', 'write the unit: acre, ft2'],
  ['30', ['h'], 'us', 'write the unit: h, s, min, d'],
] as const)(
  '%s of %s at a site that is %s lists its own units, six at most',
  (text, accepts, units, help) => {
    expect(inUnitsOf(readRange(text, accepts).fault!.help, units)).toBe(help)
  },
)
