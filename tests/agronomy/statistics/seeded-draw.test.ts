import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { seededDraw } from '../../../src/agronomy/statistics/seeded-draw.ts'

const draws = fc.record({
  seed: fc.string(),
  count: fc.integer({ min: 0, max: 60 }),
  from: fc.integer({ min: 0, max: 120 }),
})

describe('seededDraw', () => {
  test('gives as many as wanted, each once, in order, and the same again', () => {
    fc.assert(
      fc.property(draws, (options) => {
        const drawn = seededDraw(options)
        expect(drawn).toHaveLength(Math.min(options.count, options.from))
        expect(new Set(drawn).size).toBe(drawn.length)
        expect(drawn.every((each) => Number.isInteger(each) && each >= 0 && each < options.from)).toBe(true)
        expect(drawn).toEqual(drawn.toSorted((a, b) => a - b))
        expect(seededDraw(options)).toEqual(drawn)
      }),
    )
  })

  // Worked out with openssl dgst -sha256 over "spring\n0" and so on: first 48 bits modulo 1000.
  test('draws by the digest of seed and number', () => {
    expect(seededDraw({ seed: 'spring', count: 3, from: 1000 })).toEqual([139, 266, 758])
  })

  test('every vine is as likely as another', () => {
    const times = new Array<number>(20).fill(0)
    for (let seed = 0; seed < 4000; seed++)
      for (const each of seededDraw({ seed: String(seed), count: 5, from: 20 })) times[each]!++
    // 1000 each, with a standard deviation of 27.4 (binomial, 4000 draws of a quarter).
    for (const each of times) expect(Math.abs(each - 1000)).toBeLessThan(5 * 27.4)
  })

  test('refuses what is no count', () => {
    expect(() => seededDraw({ seed: 'x', count: -1, from: 3 })).toThrow(RangeError)
    expect(() => seededDraw({ seed: 'x', count: 1.5, from: 3 })).toThrow(RangeError)
  })
})
