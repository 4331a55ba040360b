import { afterEach, expect, test } from 'vitest'
import { nodeEnv } from '../../src/commands/plumbing/env.ts'
import { isTimeZone, offsetAt } from '../../src/records/zone.ts'

const before = process.env.TZ
afterEach(() => {
  if (before === undefined) delete process.env.TZ
  else process.env.TZ = before
})

test('the clock of the process and the formatter of Intl tell the same offsets', () => {
  const zones = [
    'Europe/Berlin',
    'America/St_Johns',
    'Australia/Lord_Howe',
    'Pacific/Kiritimati',
    'UTC',
    'Asia/Kolkata',
  ]
  const instants = Array.from({ length: 400 }, (_, index) => Date.UTC(2024, 0, 1) + index * 61 * 3_600_000)
  for (const zone of zones) {
    expect(isTimeZone(zone)).toBe(true)
    const byIntl = instants.map((instant) => offsetAt(instant, zone))
    const { env } = nodeEnv()
    const today = env.today(zone)
    expect(instants.map((instant) => offsetAt(instant, zone))).toEqual(byIntl)
    expect(today).toBe(
      new Intl.DateTimeFormat('en-CA', {
        timeZone: zone,
        year: 'numeric',
        month: '2-digit',
        day: '2-digit',
      }).format(Date.now()),
    )
  }
  expect(isTimeZone('Europe/Nowhere')).toBe(false)
})
