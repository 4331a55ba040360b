import { describe, expect, test } from 'vitest'
import { addDays, calendarDay, dateFault, dayNumber, daysBetween, isoDate } from '../../src/records/date.ts'
import { spokenDate } from '../../src/records/spoken-date.ts'
import { readTimeRange } from '../../src/records/typed/time-range.ts'
import { instantOf, wallClock } from '../../src/records/zone.ts'

describe('dates', () => {
  test.each([
    '2026-02-29',
    '2026-06-31',
    '2026-13-01',
    '2026-6-14',
    '14.06.2026',
    '0026-06-14',
    '2026-06-14T00:00',
  ])('%s is none', (text) => {
    expect(dayNumber(text)).toBeNull()
  })

  test('leap days, year ends and distances', () => {
    expect(isoDate(dayNumber('2024-02-29')!)).toBe('2024-02-29')
    expect(addDays('2025-12-31', 1)).toBe('2026-01-01')
    expect(daysBetween('2024-02-28', '2024-03-01')).toBe(2)
    expect(spokenDate('2026-06-15')).toBe('Mon 15 Jun')
  })

  test('every day of the calendar from 1000 to 9999 has its number, by the clock of Node', () => {
    const wrong: string[] = []
    for (let day = Date.UTC(1000, 0, 1) / 86_400_000; day <= Date.UTC(9999, 11, 31) / 86_400_000; day++) {
      const date = new Date(day * 86_400_000).toISOString().slice(0, 10)
      if (calendarDay(date) !== day) wrong.push(date)
    }
    expect(wrong).toEqual([])
  })

  test('a date as read is of the years 1900 to 2200', () => {
    expect(
      ['1899-12-31', '1900-01-01', '2200-12-31', '2201-01-01'].map((date) => dayNumber(date) !== null),
    ).toEqual([false, true, true, false])
    expect(dateFault('9999-12-31')).toBe('is outside the years 1900 to 2200')
    expect(dateFault('2026-02-30')).toBe('is not a date of the calendar')
  })

  test('texts near a date are none', () => {
    for (const year of ['1000', '1900', '2000', '2023', '2024', '9999', '0999', '202x', '-202', ' 202'])
      for (let month = 0; month <= 13; month++)
        for (let day = 0; day <= 32; day++) {
          const [mm, dd] = [month, day].map((part) => String(part).padStart(2, '0'))
          const text = `${year}-${mm}-${dd}`
          const at = new Date(`${text}T00:00:00Z`)
          const isDate = /^[1-9]\d{3}/.test(text) && !Number.isNaN(+at) && at.toISOString().startsWith(text)
          expect(calendarDay(text) !== null, text).toBe(isDate)
        }
  })
})

describe('times of a job', () => {
  test.each([
    ['18:40-20:05', 1120, 1205],
    ['8:05-9:00', 485, 540],
    ['18:40', 1120, null],
    ['22:30-01:10 +1', 1350, 1510],
  ])('%s', (text, start, end) => {
    expect(readTimeRange(text).range).toEqual({ start, end })
  })

  test.each([
    ['20:05-18:40', '+1'],
    ['18:40-18:40', '+1'],
    ['24:10-25:00', '23'],
    ['evening', '18:40-20:05'],
  ])('%s is refused with a way out', (text, help) => {
    expect(readTimeRange(text).fault?.help).toContain(help)
  })
})

describe('clock time at a place', () => {
  const hours = (a: number, b: number) => (b - a) / 3_600_000

  test('a summer evening', () => {
    const instant = instantOf('2026-06-14', 20 * 60 + 5, 'Europe/Amsterdam')
    expect(new Date(instant).toISOString()).toBe('2026-06-14T18:05:00.000Z')
    expect(wallClock(instant, 'Europe/Amsterdam').iso).toBe('2026-06-14T20:05+02:00')
  })

  test('a night in which the clocks go forward has 23 hours, one in which they go back 25', () => {
    const day = (date: string, zone: string) => hours(instantOf(date, 0, zone), instantOf(date, 1440, zone))
    expect(day('2026-03-29', 'Europe/Berlin')).toBe(23)
    expect(day('2026-10-25', 'Europe/Berlin')).toBe(25)
    expect(day('2026-10-04', 'Australia/Adelaide')).toBe(23)
    expect(day('2026-06-14', 'America/St_Johns')).toBe(24)
  })

  test('a time shown twice is the later one, a time skipped comes after the gap', () => {
    expect(new Date(instantOf('2026-10-25', 150, 'Europe/Berlin')).toISOString()).toBe(
      '2026-10-25T01:30:00.000Z',
    )
    expect(new Date(instantOf('2026-03-29', 150, 'Europe/Berlin')).toISOString()).toBe(
      '2026-03-29T01:30:00.000Z',
    )
  })

  test('24 hours over the autumn change end an hour earlier by the clock', () => {
    const end = instantOf('2026-10-24', 18 * 60, 'Europe/Berlin') + 24 * 3_600_000
    expect(wallClock(end, 'Europe/Berlin').iso).toBe('2026-10-25T17:00+01:00')
  })

  test('half-hour zones', () => {
    expect(wallClock(instantOf('2026-01-10', 600, 'America/St_Johns'), 'America/St_Johns').iso).toBe(
      '2026-01-10T10:00-03:30',
    )
  })
})
