import { describe, expect, test } from 'vitest'
import { weatherOf } from '../../../src/facts/weather/hours.ts'
import { weatherInShort } from '../../../src/facts/weather/in-short.ts'
import { dayOf } from '../../../src/records/date.ts'
import { ledgerOf } from '../../ledger/in-memory.ts'

const two = (value: number) => String(value).padStart(2, '0')
const ALL = Array.from({ length: 24 }, (_, hour) => hour)
/** A row for each hour of a day, with its cells by the hour. */
const hourly = (date: string, cells: (hour: number) => string, hours = ALL) =>
  hours.map((hour) => `${date}T${two(hour)}:00,${cells(hour)}\n`).join('')
const weather = (text: string) => weatherOf(ledgerOf({ 'seasons/2026/weather.csv': text }), 2026)
const HEADER = 'time,temperature_c,rain_mm\n'
const JUNE = dayOf('2026-06-01')
const unknown = (day: number) => ({
  day,
  min: null,
  max: null,
  mean: null,
  rain: null,
  hours: 0,
  complete: false,
})

describe('days of hours', () => {
  test('days without a row are unknown, in their place between the others', () => {
    const { days } = weather(
      HEADER + hourly('2026-06-01', (hour) => `${hour},0.5`) + hourly('2026-06-04', (hour) => `${-hour},0`),
    )
    expect(days).toEqual([
      { day: JUNE, min: 0, max: 23, mean: 11.5, rain: 12, hours: 24, complete: true },
      unknown(JUNE + 1),
      unknown(JUNE + 2),
      { day: JUNE + 3, min: -23, max: 0, mean: -11.5, rain: 0, hours: 24, complete: true },
    ])
  })

  test('twenty hours give the temperatures of a day, nineteen do not; either way the day is incomplete and its rain unknown', () => {
    const of = (count: number) =>
      weather(HEADER + hourly('2026-06-01', (hour) => `${hour},1`, ALL.slice(0, count))).days
    expect(of(20)).toEqual([
      { day: JUNE, min: 0, max: 19, mean: 9.5, rain: null, hours: 20, complete: false },
    ])
    expect(of(19)).toEqual([{ ...unknown(JUNE), hours: 19 }])
  })

  test('an hour without a temperature still has its rain, and the other way round', () => {
    const { days } = weather(
      HEADER +
        hourly('2026-06-01', (hour) => (hour === 5 ? ',1' : '10,1')) +
        hourly('2026-06-02', (hour) => (hour === 5 ? '10,' : '10,1')),
    )
    expect(days).toMatchObject([
      { hours: 23, complete: false, mean: 10, rain: 24 },
      { hours: 24, complete: true, mean: 10, rain: null },
    ])
  })

  test('a station without a rain gauge, or without a thermometer', () => {
    expect(weather(`time,temperature_c\n${hourly('2026-06-01', () => '10')}`).days).toMatchObject([
      { hours: 24, mean: 10, rain: null, complete: true },
    ])
    expect(weather(`time,rain_mm\n${hourly('2026-06-01', () => '0.5')}`).days).toMatchObject([
      { hours: 0, mean: null, rain: 12, complete: false },
    ])
  })

  test('the hour skipped by the clock is not missing, and the repeated one fills no other gap', () => {
    const spring = ALL.filter((hour) => hour !== 2)
    expect(weather(HEADER + hourly('2026-03-29', () => '10,1', spring)).days).toMatchObject([
      { hours: 23, complete: true, rain: 23 },
    ])
    const autumn = [0, 1, 2, 2, ...ALL.slice(3)]
    expect(weather(HEADER + hourly('2026-10-25', () => '10,1', autumn)).days).toMatchObject([
      { hours: 25, complete: true, rain: 25 },
    ])
    // One hour twice and another left out make 24 rows, but an hour is still missing.
    const holed = [0, 1, 2, 2, ...ALL.slice(3, 23)]
    expect(weather(HEADER + hourly('2026-10-25', () => '10,1', holed)).days).toMatchObject([
      { hours: 24, complete: false, rain: null },
    ])
  })
})

describe('days of daily rows', () => {
  test('the recorded mean, else the middle of lowest and highest; days between are unknown', () => {
    const { days, hours } = weather(
      'date,min_c,max_c,mean_c,rain_mm\n2026-06-01,5,15,11,2\n2026-06-02,5,15,,0\n2026-06-05,5,,,1\n2026-06-06,,15,9,\n',
    )
    expect(days).toEqual([
      { day: JUNE, min: 5, max: 15, mean: 11, rain: 2, hours: 24, complete: true },
      { day: JUNE + 1, min: 5, max: 15, mean: 10, rain: 0, hours: 24, complete: true },
      unknown(JUNE + 2),
      unknown(JUNE + 3),
      { ...unknown(JUNE + 4), min: 5, rain: 1 },
      { ...unknown(JUNE + 5), max: 15, mean: 9 },
    ])
    expect(hours).toEqual([])
  })
})

describe('hours', () => {
  const made = weather(
    'time,temperature_c,humidity_pct,rain_mm,wetness_min,wind_ms\n' +
      hourly('2026-06-01', (hour) => `${hour},80,0.5,30,2`) +
      hourly('2026-06-03', (hour) => (hour === 4 ? ',,,,' : `${hour},70,0,0,3`)),
  )

  test('every hour has a row with all that was measured, and null for the rest', () => {
    expect(made.hours).toHaveLength(72)
    expect(made.hours[3]).toEqual({
      day: JUNE,
      hour: 3,
      temperature: 3,
      humidity: 80,
      rain: 0.5,
      wetness: 30,
      wind: 2,
    })
    expect(made.hours[30]).toMatchObject({ day: JUNE + 1, hour: 6, temperature: null, rain: null })
    expect(made.hours[52]).toEqual({
      day: JUNE + 2,
      hour: 4,
      temperature: null,
      humidity: null,
      rain: null,
      wetness: null,
      wind: null,
    })
    expect(weather(`time,temperature_c\n${hourly('2026-06-01', () => '10')}`).hours[0]).toMatchObject({
      temperature: 10,
      wind: null,
      humidity: null,
    })
  })

  test('from a day on, the first row of that day or after it; none after the last', () => {
    expect(made.hoursFrom(JUNE + 2)[0]).toMatchObject({ day: JUNE + 2, hour: 0 })
    expect(made.hoursFrom(JUNE + 1)[0]).toMatchObject({ day: JUNE + 2, hour: 0 })
    expect(made.hoursFrom(JUNE)).toHaveLength(72)
    expect(made.hoursFrom(JUNE + 3)).toEqual([])
  })

  test('hours and days are made once', () => {
    expect(made.hoursFrom(JUNE)).toBe(made.hoursFrom(JUNE))
    expect(made.days).toBe(made.days)
  })
})

test('the days of a season are those of its file, read once; a season without one has none', () => {
  const ledger = ledgerOf({ 'seasons/2026/weather.csv': HEADER + hourly('2026-06-01', () => '10,1') })
  expect(weatherInShort(ledger, 2026).days).toEqual(weatherOf(ledger, 2026).days)
  expect(weatherInShort(ledger, 2026)).toBe(weatherInShort(ledger, 2026))
  expect(weatherInShort(ledger, 2025).days).toEqual([])
  expect(weatherOf(ledger, 2026)).toBe(weatherOf(ledger, 2026))
})
