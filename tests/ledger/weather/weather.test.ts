import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Weather, weatherOf } from '../../../src/facts/weather/hours.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import {
  readWeather,
  readWeatherFile,
  type WeatherFile,
  type WeatherMapping,
} from '../../../src/ledger/weather/weather.ts'
import { dayOf } from '../../../src/records/date.ts'
import { importPlan } from '../import-plan.ts'
import { ledgerOf } from '../in-memory.ts'
import { makeLedger } from '../make.ts'

const folder = mkdtempSync(join(tmpdir(), 'rowbook-weather-'))
let count = 0
function read(text: string, mapping?: WeatherMapping) {
  const path = join(folder, `${count++}.csv`)
  writeFileSync(path, text)
  return withDays(readWeatherFile(path, { mapping }))
}
/** The same as the weather of a season at a site by the clock of Berlin. */
const readAtSite = (text: string) =>
  withDays(readWeather(ledgerOf({ 'seasons/2026/weather.csv': text }), 2026))
function withDays(file: WeatherFile) {
  const { hours, days } = new Weather(file)
  return { ...file, hours, days }
}
const names = (weather: { findings: { name: string }[] }) => weather.findings.map(({ name }) => name)
const HEADER = 'time,temperature_c,humidity_pct,rain_mm,wetness_min,wind_ms'
const two = (value: number) => String(value).padStart(2, '0')
const hoursOfDay = (date: string, hours: number[], cells = '10,80,0,0,1') =>
  hours.map((hour) => `${date}T${two(hour)}:00,${cells}`)
const ALL = Array.from({ length: 24 }, (_, hour) => hour)

describe('hourly files', () => {
  test('a full day is complete, with its ends, mean and rain', () => {
    const lines = ALL.map((hour) => `2026-06-01T${two(hour)}:00,${hour},80,0.5,0,1`)
    const { form, rows, days, hours, findings } = read([HEADER, ...lines].join('\n'))
    expect({ form, rows, findings }).toEqual({ form: 'hourly', rows: 24, findings: [] })
    expect(days).toEqual([
      { day: dayOf('2026-06-01'), min: 0, max: 23, mean: 11.5, rain: 12, hours: 24, complete: true },
    ])
    expect(hours[3]).toMatchObject({ hour: 3, temperature: 3, humidity: 80, rain: 0.5, wetness: 0, wind: 1 })
  })
  test('missing hours are unknown, never zero, and reported', () => {
    const weather = read(
      [
        HEADER,
        ...hoursOfDay(
          '2026-06-01',
          ALL.filter((hour) => hour < 10 || hour > 12),
        ),
      ].join('\n'),
    )
    expect(weather.hours).toHaveLength(24)
    expect(weather.hours[11]).toMatchObject({ temperature: null, rain: null, wetness: null, humidity: null })
    expect(weather.days[0]).toMatchObject({ min: 10, rain: null, hours: 21, complete: false })
    expect(weather.findings).toMatchObject([{ name: 'weather-gap', level: 'hint', line: 12 }])
  })
  test('a day with too few hours has no ends', () => {
    expect(read([HEADER, ...hoursOfDay('2026-06-01', ALL.slice(0, 19))].join('\n')).days[0]).toMatchObject({
      min: null,
      max: null,
      mean: null,
      hours: 19,
    })
    expect(read([HEADER, ...hoursOfDay('2026-06-01', ALL.slice(0, 20))].join('\n')).days[0]).toMatchObject({
      min: 10,
      hours: 20,
    })
  })
  test('clock changes of the zone: no gap in spring, two hours kept in autumn', () => {
    const spring = readAtSite(
      [
        HEADER,
        ...hoursOfDay(
          '2026-03-29',
          ALL.filter((hour) => hour !== 2),
        ),
      ].join('\n'),
    )
    expect(spring.findings).toEqual([])
    expect(spring.days[0]).toMatchObject({ hours: 23, complete: true })
    const autumn = readAtSite([HEADER, ...hoursOfDay('2026-10-25', [0, 1, 2, 2, ...ALL.slice(3)])].join('\n'))
    expect(autumn.findings).toEqual([])
    expect(autumn.days[0]).toMatchObject({ hours: 25, complete: true })
    const thrice = readAtSite(
      [HEADER, ...hoursOfDay('2026-10-25', [0, 1, 2, 2, 2, ...ALL.slice(3)])].join('\n'),
    )
    expect(names(thrice)).toEqual(['hour-twice'])
  })
  test('on any other day an hour that comes twice is reported, and its second row left out', () => {
    const weather = readAtSite(
      [
        HEADER,
        ...hoursOfDay('2026-06-01', [0, 1]),
        '2026-06-01T01:00,30,80,9,0,1',
        ...hoursOfDay('2026-06-01', ALL.slice(2)),
      ].join('\n'),
    )
    expect(names(weather)).toEqual(['hour-twice'])
    expect(weather.days[0]).toMatchObject({ max: 10, rain: 0 })
  })
  test('rows within an hour are combined, and a missing part leaves rain unknown', () => {
    const quarter = (hour: number, minute: number, temperature: number) =>
      `2026-06-01T${two(hour)}:${two(minute)},${temperature},80,1,15,2`
    const lines = [0, 15, 30, 45]
      .map((minute, at) => quarter(0, minute, 10 + at))
      .concat([0, 15, 45].map((minute) => quarter(1, minute, 20)))
    const { hours } = read([HEADER, ...lines].join('\n'))
    expect(hours[0]).toMatchObject({ temperature: 11.5, rain: 4, wetness: 60, wind: 2 })
    expect(hours[1]).toMatchObject({ temperature: 20, rain: null, wetness: null })
  })
})

describe('the forms that stations write', () => {
  test('mapped columns, Fahrenheit, inches, decimal comma, semicolons, day first', () => {
    const text = 'Zeit;Temp;Regen;Blatt\n01.06.2026 00:00;50,0;0,1;0,5\n01.06.2026 01:00;--;;\n'
    const mapping: WeatherMapping = {
      columns: { time: 'Zeit', temperature: 'Temp', rain: 'Regen', wetness: 'Blatt' },
      units: { temperature: 'F', rain: 'in', wetness: 'h' },
      decimal: 'comma',
      dates: 'day-first',
    }
    const { hours, findings } = read(text, mapping)
    expect(findings).toEqual([])
    expect(hours[0]!.temperature).toBeCloseTo(10, 10)
    expect(hours[0]!.rain).toBeCloseTo(2.54, 10)
    expect(hours[0]!.wetness).toBeCloseTo(30, 10)
    expect(hours[1]).toMatchObject({ temperature: null, rain: null, wetness: null })
  })
  test('quoted cells, CRLF, comments, a byte order mark and blank lines', () => {
    const { hours, findings } = read(
      `\ufeff# station 4\r\n"time","temperature_c"\r\n\r\n"2026-06-01T00:00","11.5"\r\n`,
    )
    expect(findings).toEqual([])
    expect(hours[0]!.temperature).toBe(11.5)
  })
  test('dates and clock times in separate columns, twelve-hour clock, seconds, midnight as 24:00', () => {
    const { hours } = read(
      'date,time,temperature_c\n2026-06-01,11:00 PM,9\n2026-06-02,12:00:00 AM,8\n2026-06-02,24:00,7\n',
    )
    expect(
      hours
        .filter(({ temperature }) => temperature !== null)
        .map(({ day, hour }) => [day - dayOf('2026-06-01'), hour]),
    ).toEqual([
      [0, 23],
      [1, 0],
      [2, 0],
    ])
  })
  test('an offset is converted to the clock of the zone', () => {
    const { hours } = readAtSite('time,temperature_c\n2026-06-01T22:30Z,9\n')
    expect(hours[0]!.day).toBe(dayOf('2026-06-02'))
    expect(hours[0]!.temperature).toBe(9)
  })
  test('daily files; a missing day is unknown', () => {
    const { form, days, findings } = read('date,min_c,max_c,rain_mm\n2026-06-01,5,15,2\n2026-06-03,6,,0\n')
    expect(form).toBe('daily')
    expect(days.map(({ min, max, mean, rain }) => [min, max, mean, rain])).toEqual([
      [5, 15, 10, 2],
      [null, null, null, null],
      [6, null, null, 0],
    ])
    expect(findings).toMatchObject([{ name: 'weather-gap' }])
  })
})

describe('wrong readings are reported with their place, and are unknown', () => {
  test.each([
    ['2026-06-01T00:00,12x,80', 'bad-cell', 18],
    ['2026-06-01T00:00,"12,5",80', 'bad-cell', 18],
    ['2026-06-01T00:00,1e3,80', 'bad-cell', 18],
    ['2026-06-01T00:00,99,80', 'impossible-reading', 18],
    ['2026-06-01T00:00,-51,80', 'impossible-reading', 18],
    ['2026-06-01T00:00,10,101', 'impossible-reading', 21],
    ['2026-02-30T00:00,10,80', 'bad-time', 1],
    ['01/06/2026 00:00,10,80', 'bad-time', 1],
    ['yesterday,10,80', 'bad-time', 1],
    ['2026-06-01T00:00,10', 'short-row', 1],
    ['2026-06-01T00:00', 'short-row', 1],
  ])('%s', (line, name, column) => {
    const { findings } = read(`time,temperature_c,humidity_pct\n${line}\n`)
    expect(findings).toMatchObject([{ name, line: 2, column }])
  })
  test.each([
    [49, 1],
    [48, 0],
  ])('a temperature that stays the same in %d hourly rows is told %d times', (count, times) => {
    const row = (at: number, value: string) =>
      `2026-06-0${1 + Math.floor(at / 24)}T${String(at % 24).padStart(2, '0')}:00,${value}\n`
    const rows = Array.from({ length: 60 }, (_, at) => row(at, at < count ? '15' : `${16 + (at % 7) / 10}`))
    const { findings } = read(`time,temperature_c\n${rows.join('')}`)
    const found = { name: 'stuck-sensor', level: 'hint', line: 2, column: 1 }
    expect(findings).toMatchObject(times === 0 ? [] : [found])
    // An empty cell between them is not a reading, and ends the run.
    const gappy = rows.with(20, row(20, ''))
    expect(read(`time,temperature_c\n${gappy.join('')}`).findings).toEqual([])
  })
  test('an empty cell at the end does not make a short row', () => {
    expect(read('time,temperature_c,rain_mm\n2026-06-01T00:00,10,\n2026-06-01T01:00,,\n').findings).toEqual(
      [],
    )
    expect(read('time,temperature_c,more,rest\n2026-06-01T00:00,10\n').findings).toEqual([])
  })
  test('an amount of rain that is impossible in an hour, but possible in a day', () => {
    expect(read('time,rain_mm\n2026-06-01T00:00,401\n').findings).toMatchObject([
      { name: 'impossible-reading' },
    ])
    expect(read('time,rain_mm\n2026-06-01T00:00,400\n').findings).toEqual([])
    expect(read('date,rain_mm\n2026-06-01,401\n').findings).toEqual([])
  })
  test('readings at the limits are accepted', () => {
    expect(read('time,temperature_c\n2026-06-01T00:00,60\n2026-06-01T01:00,-50\n').findings).toEqual([])
  })
  test('a mistyped column is reported with the nearest name', () => {
    expect(read('time,temprature_c,rain_mm\n2026-06-01T00:00,10,0\n').findings).toMatchObject([
      { name: 'unknown-column', line: 1, column: 6, help: expect.stringContaining('temperature_c') },
    ])
  })
  test('a mapped column that is missing points into vineyard.yaml', () => {
    const root = makeLedger({
      'vineyard.yaml':
        'name: T\nlatitude: 50\ntimezone: Europe/Berlin\nweather: { columns: { temperature: Tmep } }\n',
      'seasons/2026/weather.csv': 'time,Temp\n2026-06-01T00:00,10\n',
    })
    const { findings } = readWeather(openLedger(root, { seasons: 'all' }), 2026)
    expect(findings).toMatchObject([
      {
        name: 'unknown-column',
        level: 'error',
        file: 'vineyard.yaml',
        line: 4,
        help: 'did you mean `Temp`?',
      },
    ])
  })
  test('rows of another season, rows out of order, no time column, an empty file', () => {
    const root = makeLedger({
      'seasons/2026/weather.csv': `${HEADER}\n${hoursOfDay('2025-06-01', [0])[0]}\n`,
    })
    expect(names(readWeather(openLedger(root, { seasons: 'all' }), 2026))).toEqual(['wrong-season'])
    const back = read([HEADER, ...hoursOfDay('2026-06-01', [1, 0, 2])].join('\n'))
    expect(names(back)).toEqual(['out-of-order'])
    expect(back.hours[0]!.temperature).toBe(10)
    expect(names(read('a,b\n1,2\n'))).toEqual(['no-time-column'])
    expect(read('').days).toEqual([])
  })
  test('a thousand bad cells give few findings', () => {
    const lines = ALL.flatMap((hour) =>
      Array.from({ length: 4 }, (_, day) => `2026-06-0${day + 1}T${two(hour)}:00,x`),
    )
    expect(read(['time,temperature_c', ...lines.toSorted()].join('\n')).findings.length).toBeLessThan(25)
  })
  test('no content of a file makes it throw', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.oneof(
            fc.string(),
            fc.constantFrom('2026-06-01T00:00', '9', ',', '\n', '"', '99999-01-01', '__proto__'),
          ),
          { maxLength: 30 },
        ),
        (parts) => {
          const weather = read(`time,temperature_c,__proto__\n${parts.join('')}`)
          expect(Array.isArray(weather.findings)).toBe(true)
        },
      ),
      { numRuns: 200 },
    )
  })
})

test('the weather of a ledger is read once', () => {
  const ledger = openLedger(makeLedger({ 'seasons/2026/weather.csv': `${HEADER}\n` }), { seasons: 'all' })
  expect(weatherOf(ledger, 2026)).toBe(weatherOf(ledger, 2026))
  expect(weatherOf(ledger, 2026).hours).toBe(weatherOf(ledger, 2026).hours)
  expect(readWeather(ledger, 1999)).toMatchObject({ file: null, rows: 0, findings: [] })
})

test('a year of hours is read in well under a second', () => {
  const lines = Array.from({ length: 365 }, (_, day) =>
    new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10),
  ).flatMap((date) => hoursOfDay(date, ALL, '12.3,80,0.2,15,1.6'))
  const path = join(folder, 'year.csv')
  writeFileSync(path, [HEADER, ...lines].join('\n'))
  const runs = Array.from({ length: 5 }, () => {
    const start = performance.now()
    expect(readWeatherFile(path).rows).toBe(8760)
    return performance.now() - start
  })
  expect(Math.min(...runs)).toBeLessThan(400)
})

describe('rows in plain form are read like any other row', () => {
  const cell = fc.oneof(
    fc.float({ min: -60, max: 70, noNaN: true }).map((value) => value.toFixed(2)),
    fc.constantFrom(
      '',
      '5.',
      '.5',
      '+3',
      '-0',
      ' 4',
      '12x',
      '1e3',
      '0.30000000000000004',
      '123456789012345678',
      '-',
    ),
    fc.double({ min: 0, max: 100, noNaN: true, noDefaultInfinity: true }).map(String),
  )
  const time = fc.constantFrom(
    '2026-06-01T00:00',
    '2026-06-01 01:00',
    '2026-06-01T02:30',
    '2026-06-01T24:00',
    '2026-06-31T00:00',
    '2026-06-01T1:00',
    '#2026-06-01T03:00',
    '',
  )
  test('readings, findings and their places', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(time, fc.array(cell, { maxLength: 4 })), { maxLength: 8 }), (rows) => {
        const lines = [
          'time,temperature_c,other,rain_mm',
          ...rows.map(([at, cells]) => [at, ...cells].join(',')),
        ]
        const text = `${lines.join('\n')}\n`
        // A quote anywhere, here in a comment, makes every row take the slow path.
        const [plain, long] = [read(text), read(`${text}# "\n`)]
        const strip = ({ findings, hours, days }: ReturnType<typeof read>) => ({
          hours,
          days,
          findings: findings.map(({ file: _, ...finding }) => finding),
        })
        expect(strip(plain)).toEqual(strip(long))
      }),
      { numRuns: 300 },
    )
  })
})

describe('import', () => {
  const base = [HEADER, ...hoursOfDay('2026-06-01', ALL)].join('\n')
  test('only new rows are added, in the order of the existing columns, and importing twice adds nothing', () => {
    const root = makeLedger({ 'seasons/2026/weather.csv': base })
    const path = join(folder, 'export.csv')
    writeFileSync(path, 'rain_mm,time,temperature_c\n0,2026-06-01T23:00,11\n3,2026-06-02T00:00,9\n')
    const plan = importPlan(root, path)
    expect(plan.seasons).toMatchObject([
      { season: 2026, added: 1, known: 1, different: 1, first: '2026-06-02 00:00' },
    ])
    importPlan(root, path, true)
    expect(readFileSync(join(root, 'seasons/2026/weather.csv'), 'utf8')).toBe(
      `${base}\n2026-06-02T00:00,9,,3,,\n`,
    )
    expect(importPlan(root, path).seasons).toMatchObject([{ added: 0, known: 2 }])
  })
  test('rows go to the seasons that they belong to', () => {
    const root = makeLedger({})
    const path = join(folder, 'two.csv')
    writeFileSync(path, 'time,temperature_c\n2025-10-31T23:00,5\n2025-11-01T00:00,4\n')
    importPlan(root, path, true)
    expect(readFileSync(join(root, 'seasons/2025/weather.csv'), 'utf8')).toBe(
      'time,temperature_c\n2025-10-31T23:00,5\n',
    )
    expect(readFileSync(join(root, 'seasons/2026/weather.csv'), 'utf8')).toBe(
      'time,temperature_c\n2025-11-01T00:00,4\n',
    )
  })
})
