import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { SEASONS, weatherFile, weatherPath } from '../../examples/generate-weather.mjs'
import { degreeDays, sumDegreeDays } from '../../src/agronomy/heat/degree-days.ts'
import { weatherOf } from '../../src/facts/weather/hours.ts'
import { openLedger } from '../../src/ledger/read/open.ts'
import { dayOf } from '../../src/records/date.ts'

const root = fileURLToPath(new URL('../../examples/far-quillet', import.meta.url))
const ledger = openLedger(root, { seasons: 'all' })

function aboveTen(year: number) {
  const { days } = weatherOf(ledger, year)
  const season = days.filter(({ day }) => day >= dayOf(`${year}-04-01`) && day <= dayOf(`${year}-10-31`))
  return sumDegreeDays(
    season.map(({ min, max }) =>
      min === null || max === null ? null : degreeDays({ min, max, base: 10, method: 'average' }),
    ),
  )
}

describe('the invented weather of the example', () => {
  it('has three seasons', () => {
    expect(SEASONS.map(({ year }) => year)).toEqual([2024, 2025, 2026])
  })

  it.each(SEASONS)('is written again byte for byte by its generator: $year', (season) => {
    const made = weatherFile(season)
    expect(readFileSync(weatherPath(season), 'utf8')).toBe(made)
    expect(made.startsWith('# invented example')).toBe(true)
    expect(made.length).toBeLessThan(400_000)
  })

  it('is read without a finding, but for the outage of 2025', () => {
    const found = SEASONS.flatMap(({ year }) => weatherOf(ledger, year).station.findings)
    expect(found.filter(({ level }) => level !== 'hint')).toEqual([])
  })

  it('leaves the outage unknown, and follows the clock where it changes', () => {
    const { hours } = weatherOf(ledger, 2025)
    const at = (date: string) => hours.filter(({ day }) => day === dayOf(date))
    const unknown = hours.filter(({ temperature }) => temperature === null)
    expect(unknown.map(({ day, hour }) => [day, hour])).toEqual(
      [14, 15, 16, 17, 18, 19, 20].map((hour) => [dayOf('2025-07-22'), hour]),
    )
    expect(at('2025-03-30').map(({ hour }) => hour)).not.toContain(2)
    expect(at('2025-10-26').filter(({ hour }) => hour === 2)).toHaveLength(2)
  })

  it('is that of a cool place: 900 to 1150 degree days above 10 °C from April to October', () => {
    for (const year of [2024, 2025]) {
      const { sum, missing } = aboveTen(year)
      expect(missing).toBeLessThan(3)
      expect(sum).toBeGreaterThan(900)
      expect(sum).toBeLessThan(1150)
    }
  })

  it('stops on 13 September 2026', () => {
    expect(weatherOf(ledger, 2026).days.at(-1)?.day).toBe(dayOf('2026-09-13'))
  })
})
