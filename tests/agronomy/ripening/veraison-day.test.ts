import { describe, expect, test } from 'vitest'
import { veraisonDay } from '../../../src/agronomy/ripening/veraison-day.ts'

describe('veraisonDay', () => {
  test('half coloured is the day itself, a tenth is days before it, nine tenths after it', () => {
    expect(veraisonDay({ day: 500, share: 0.5 })).toEqual({ day: 500, within: 3 })
    const tenth = veraisonDay({ day: 500, share: 0.1 })
    const most = veraisonDay({ day: 500, share: 0.9 })
    expect(tenth.day).toBeCloseTo(505.22, 2) // 14 x ln 9 / (2 ln 19)
    expect(most.day).toBeCloseTo(494.78, 2)
    expect(tenth.within).toBeCloseTo(3 + 5.22 / 2, 2)
    expect(veraisonDay({ day: 500, share: 0.05 }).day).toBeCloseTo(507, 9)
    expect(veraisonDay({ day: 500 }).within).toBeGreaterThan(tenth.within)
  })

  test.each([0, 1, -0.1, 10, Number.NaN])('refuses a share of %d', (share) => {
    expect(() => veraisonDay({ day: 500, share })).toThrow(RangeError)
  })
})
