import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { seasonOf, seasonSpan } from '../../../src/ledger/read/seasons.ts'
import { addDays } from '../../../src/records/date.ts'

describe('seasons', () => {
  test.each([
    [{ latitude: 52 }, 2026, '2025-11-01', '2026-10-31'],
    [{ latitude: -41 }, 2026, '2025-06-01', '2026-05-31'],
    [{ latitude: 52, season_starts: '12-01' }, 2026, '2025-12-01', '2026-11-30'],
    [{ latitude: 52, season_starts: '01-01' }, 2026, '2026-01-01', '2026-12-31'],
    [{ latitude: -41, season_starts: '07-01' }, 2026, '2025-07-01', '2026-06-30'],
    [{ latitude: 0 }, 2026, '2025-11-01', '2026-10-31'],
  ])('%j', (site, season, first, last) => {
    expect(seasonSpan(site, season)).toEqual({ first, last })
  })

  test('every day belongs to exactly one season', () => {
    const sites = [
      { latitude: 50 },
      { latitude: -40 },
      { latitude: 50, season_starts: '03-15' },
      { latitude: -40, season_starts: '01-01' },
    ]
    fc.assert(
      fc.property(fc.constantFrom(...sites), fc.integer({ min: 0, max: 20_000 }), (site, days) => {
        const date = addDays('1990-01-01', days)
        const { first, last } = seasonSpan(site, seasonOf(site, date))
        expect(date >= first && date <= last).toBe(true)
      }),
    )
  })
})
