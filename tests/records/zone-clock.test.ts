import { afterEach, describe, expect, test } from 'vitest'
import { nodeEnv } from '../../src/commands/plumbing/env.ts'
import { clockRunsBy, isTimeZone } from '../../src/records/clock.ts'
import { clockChanges, instantOf, offsetAt, wallClock } from '../../src/records/zone.ts'
import { instantsOf, shownAt } from './shown-clock.ts'

const before = process.env.TZ
afterEach(() => {
  clockRunsBy('')
  if (before === undefined) delete process.env.TZ
  else process.env.TZ = before
})

const ZONES = [
  'Europe/Berlin',
  'America/St_Johns',
  'Australia/Lord_Howe',
  'Pacific/Kiritimati',
  'UTC',
  'Asia/Kolkata',
]
const HOUR = 3_600_000
const INSTANTS = Array.from({ length: 400 }, (_, index) => Date.UTC(2024, 0, 1) + index * 61 * HOUR)

describe.each(ZONES)('the clocks of %s', (zone) => {
  const shown = (instant: number) => {
    const { date, minutes } = wallClock(instant, zone)
    const two = (value: number) => String(value).padStart(2, '0')
    return `${date} ${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`
  }
  const byIntl = INSTANTS.map((instant) => shownAt(instant, zone))

  test('show what Intl says, by the zone and by the clock of the process', () => {
    const byZone = INSTANTS.map((instant) => offsetAt(instant, zone))
    expect(INSTANTS.map(shown)).toEqual(byIntl)
    const today = nodeEnv('/').env.today(zone)
    expect(INSTANTS.map(shown)).toEqual(byIntl)
    expect(INSTANTS.map((instant) => offsetAt(instant, zone))).toEqual(byZone)
    expect(today).toBe(shownAt(Date.now(), zone).slice(0, 10))
  })

  test('show each half hour of two years at the last instant that Intl knows, and skip and repeat as Intl does', () => {
    const day = (date: string) => Date.parse(`${date}T00:00Z`) / 86_400_000
    const found = clockChanges(zone, day('2025-01-01'), day('2026-12-31'))
    const wrong: string[] = []
    for (let number = day('2025-01-01'); number <= day('2026-12-31'); number++) {
      const date = new Date(number * 86_400_000).toISOString().slice(0, 10)
      // Around the changes of clocks, and every tenth day.
      const nearChange = [...found.skipped, ...found.repeated].some(
        (hour) => Math.abs(hour / 24 - number) < 3,
      )
      if (!nearChange && number % 10 > 0) continue
      for (let minutes = 0; minutes < 1440; minutes += 30) {
        const clock = `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${minutes % 60 === 0 ? '00' : '30'}`
        const instants = instantsOf(`${date} ${clock}`, zone)
        const instant = instantOf(date, minutes, zone)
        if (instants.length > 0 && instant !== instants.at(-1)) wrong.push(`${date} ${clock}`)
        const hour = number * 24 + minutes / 60
        // Lord Howe's clocks change by half an hour, which leaves no whole hour out and repeats none.
        if (zone === 'Australia/Lord_Howe') continue
        if (minutes % 60 === 0 && (instants.length === 0) !== found.skipped.has(hour))
          wrong.push(`skipped ${date} ${clock}`)
        if (minutes % 60 === 0 && instants.length > 1 !== found.repeated.has(hour))
          wrong.push(`repeated ${date} ${clock}`)
      }
    }
    expect(wrong).toEqual([])
  })
})

test('names of zones', () => {
  expect([...ZONES, 'Europe/Kyiv', 'Etc/GMT+5'].filter((zone) => !isTimeZone(zone))).toEqual([])
  expect(isTimeZone('Europe/Nowhere')).toBe(false)
  expect(() => offsetAt(0, 'Europe/Nowhere')).toThrow(RangeError)
  expect(() => wallClock(Number.NaN, 'UTC')).toThrow(RangeError)
})
