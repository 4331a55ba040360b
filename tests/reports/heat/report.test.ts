import { describe, expect, test } from 'vitest'
import { heat } from '../../../src/reports/heat/report.ts'
import { inputOf, weatherText } from '../weather-ledger.ts'

describe('heat', () => {
  test('an index whose window is not covered is null and says why; beyond 50° Huglin is an extension only', () => {
    const files = {
      'seasons/2026/weather.csv': weatherText(
        '2026-04-01',
        Array.from({ length: 214 }, () => ({ warm: 8 })),
      ),
    }
    const part = heat(inputOf(files, '2026-06-30')).data
    expect(part.winkler).toMatchObject({ value: null, region: null, days: 91, missing: 123 })
    expect(part.winkler.why).toContain('91 of 214 days')
    expect(part.to).toBe('2026-06-30')
    const whole = heat(inputOf(files, '2026-10-31')).data
    expect(whole.winkler.value).toBe(214 * 10)
    expect(whole.huglin).toMatchObject({ value: null, class: null })
    expect(whole.huglin.extension).toBeCloseTo(183 * 12.5 * 1.06, 6)
    expect(whole.huglin.why).toContain('50°')
  })
  test('in the southern hemisphere the season runs over the new year', () => {
    const files = {
      'vineyard.yaml': 'name: South\nlatitude: -45\ntimezone: Pacific/Auckland\n',
      'seasons/2026/weather.csv': weatherText(
        '2025-10-01',
        Array.from({ length: 212 }, () => ({ warm: 8 })),
      ),
    }
    const { winkler, huglin, coolNights } = heat(inputOf(files, '2026-05-01')).data
    expect([winkler.from, winkler.to, huglin.to, coolNights.from]).toEqual([
      '2025-10-01',
      '2026-04-30',
      '2026-03-31',
      '2026-03-01',
    ])
    expect(huglin.value).toBeCloseTo(182 * 12.5 * 1.04, 6)
  })
})
