import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { importPlan } from '../ledger/import-plan.ts'
import { makeLedger } from '../ledger/make.ts'
import { flat, run, runJson } from './run.ts'

const SITE = 'name: Test Rows\nlatitude: 51.5\nlongitude: 7.1\ntimezone: Europe/Berlin\n'
const FILE = 'seasons/2026/weather.csv'
const STANDS = 'time,temperature_c,rain_mm\n2026-06-01T00:00,12.5,0\n2026-06-01T01:00,12,0.2\n'
/** Day first, comma, another order, °F and inches; the second row stands in the ledger already. */
const EXPORT = [
  'Zeit;Regen;Temp;Druck',
  '01.06.2026 01:00;0,01;53,6;1013',
  '01.06.2026 02:00;0,1;50,0;1012',
  '01.06.2026 03:00;;48,2;1012',
].join('\n')
const HOW = [
  ['--columns', 'time=Zeit, temperature=Temp, rain=Regen'],
  ['--column-units', 'temperature=F, rain=in'],
  ['--decimal', 'comma'],
  ['--dates', 'day-first'],
].flat()

function ledgerWith(files: Record<string, string>) {
  const root = makeLedger({ 'vineyard.yaml': SITE, ...files })
  writeFileSync(join(root, 'export.txt'), EXPORT)
  return root
}

describe('an export that is written in another way than the ledger', () => {
  test('is turned into rows of the season file, unit by unit, new rows only', () => {
    const root = ledgerWith({ [FILE]: STANDS })
    const look = run(['import', 'weather', 'export.txt', ...HOW], { cwd: root })
    expect(look).toMatchObject({ status: 0 })
    expect(look.stdout).toContain('2 rows to add')
    expect(look.stdout).toContain('2026-06-01T02:00,10,2.54')
    expect(readFileSync(join(root, FILE), 'utf8')).toBe(STANDS)
    const { status } = run(['import', 'weather', 'export.txt', ...HOW, '--yes'], { cwd: root })
    expect(status).toBe(0)
    expect(readFileSync(join(root, FILE), 'utf8')).toBe(
      `${STANDS}2026-06-01T02:00,10,2.54\n2026-06-01T03:00,9,\n`,
    )
    const { json } = runJson(['import', 'weather', 'export.txt', ...HOW], { cwd: root })
    expect(json.data.seasons).toMatchObject([{ added: 0, known: 3, different: 1 }])
  })
  test('begins a file by what vineyard.yaml says, and pressure reads it back', () => {
    const weather =
      'weather: { columns: { temperature: "temp F" }, units: { temperature: F }, decimal: comma, dates: day-first }\n'
    const root = ledgerWith({ 'vineyard.yaml': SITE + weather })
    run(['import', 'weather', 'export.txt', ...HOW, '--yes'], { cwd: root })
    expect(readFileSync(join(root, FILE), 'utf8')).toBe(
      'time;temp F;rain_mm\n01.06.2026 01:00;53,6;0,25\n01.06.2026 02:00;50;2,54\n01.06.2026 03:00;48,2;\n',
    )
    const { json } = runJson(['heat', '--as-of', '2026-06-02', '--from', '2026-06-01'], { cwd: root })
    expect(json.findings).toEqual([])
    expect(json.data.fromHours.hours).toBeCloseTo(2 / 24, 6)
  })
  test('what is said of it must hold', () => {
    const root = ledgerWith({ [FILE]: STANDS })
    const wrong = (...args: string[]) => run(['import', 'weather', 'export.txt', ...args], { cwd: root })
    expect(wrong('--columns', 'time=Zeit, temperature=Tmp')).toMatchObject({ status: 2 })
    expect(wrong('--columns', 'time=Zeit, temperature=Tmp').stderr).toContain('no column `Tmp`')
    expect(wrong(...HOW.slice(0, 2), '--column-units', 'temperature=K').stderr).toContain(
      'no unit for temperature',
    )
    expect(wrong('--columns', 'Zeit').stderr).toContain('names no column')
    const sprays = run(['import', 'sprays', 'export.txt', '--decimal', 'comma'], { cwd: root })
    expect(sprays).toMatchObject({ status: 2, stdout: '' })
    const daily = ledgerWith({ [FILE]: 'date,min_c,max_c\n2026-06-01,8,20\n' })
    const mixed = run(['import', 'weather', 'export.txt', ...HOW], { cwd: daily })
    expect(mixed).toMatchObject({ status: 2 })
    expect(mixed.stderr).toContain('of hours')
  })
})

describe('a weather file without a ledger', () => {
  test('decimal, dates, separator and units are said without naming columns', () => {
    const root = ledgerWith({})
    const path = join(root, 'daily.txt')
    writeFileSync(path, 'date|min_c|max_c\n06/01/2026|50,0|68,0\n06/02/2026|50,0|68,0\n')
    const args = [
      'heat',
      '--weather',
      path,
      '--latitude',
      '45',
      '--decimal',
      'comma',
      '--dates',
      'month-first',
    ]
    const { json } = runJson([...args, '--separator', '|', '--column-units', 'min=F, max=F'], { cwd: root })
    expect(json).toMatchObject({ findings: [], data: { from: '2026-06-01', to: '2026-06-02', sum: 10 } })
  })
  test('said without a file it is used wrongly', () => {
    const { status, stderr } = run(['heat', '--decimal', 'comma'], { cwd: ledgerWith({}) })
    expect(status).toBe(2)
    expect(stderr).toContain('add --weather FILE')
  })
})

/** Rows of a station every so many minutes from 1 June 2026 on: 12 degrees and a shower of 0.2 mm a row from 2 to 3. */
function stationRows(
  count: number,
  step: number,
  write: (row: { day: string; clock: string; rain: number }) => string,
) {
  return Array.from({ length: count }, (_, at) => {
    const minutes = at * step
    const two = (value: number) => String(value).padStart(2, '0')
    const [hour, minute] = [Math.floor(minutes / 60) % 24, minutes % 60]
    const day = `2026-06-${two(1 + Math.floor(minutes / 1440))}`
    return write({ day, clock: `${two(hour)}:${two(minute)}`, rain: hour === 2 ? 0.2 : 0 })
  })
}

/** An export whose rain is a total that only rises. */
function runningTotal(): string {
  let total = 100
  const rows = stationRows(96, 15, ({ day, clock, rain }) => {
    total += rain
    return `${day} ${clock},12,${total.toFixed(1)}`
  })
  return ['Time,Temp °C,Rain mm', ...rows].join('\n')
}

const german = (day: string) => day.split('-').reverse().join('.')
const comma = (value: number) => String(value).replace('.', ',')

function imported(text: string | Uint8Array, args: string[] = [], files: Record<string, string> = {}) {
  const root = ledgerWith(files)
  writeFileSync(join(root, 'station.csv'), text)
  const all = ['import', 'weather', 'station.csv', '--as-of', '2026-07-01', ...args]
  const { status, stdout, stderr } = run([...all, '--yes'], { cwd: root })
  return { root, status, stdout, stderr, all, text: () => readFileSync(join(root, FILE), 'utf8') }
}

describe('an export is understood by its headings, units and values', () => {
  const tenMinutes = [
    'Wetterstation am Hang',
    'Datum/Uhrzeit;Lufttemperatur (°C);Rel. Feuchte (%);Niederschlag (mm);Wind (km/h);Windböe (km/h);Fühler 7',
    ...stationRows(
      6 * 4 + 2,
      10,
      ({ day, clock, rain }) => `${german(day)} ${clock};12,5;80;${comma(rain)};3,6;9;4`,
    ),
  ].join('\r\n')
  const whole =
    'time,temperature_c,humidity_pct,rain_mm,wind_ms\n2026-06-01T00:00,12.5,80,0,1\n2026-06-01T01:00,12.5,80,0,1\n2026-06-01T02:00,12.5,80,1.2,1\n2026-06-01T03:00,12.5,80,0,1\n'
  test('a German one of 10 minutes, in Windows-1252, UTF-16 or with a byte order mark, is brought to hours', () => {
    for (const bytes of [
      Buffer.from(tenMinutes, 'latin1'),
      Buffer.from(`\ufeff${tenMinutes}`, 'utf16le'),
      Buffer.from(`\ufeff${tenMinutes}`),
    ]) {
      const { text, stdout, status } = imported(bytes)
      expect(status).toBe(0)
      expect(text()).toBe(whole)
      expect(stdout).toContain('`Fühler 7` is not understood')
    }
  })
  test('the look shows columns, first and last rows, span, extremes and the rule for hours', () => {
    const { root } = imported(tenMinutes)
    writeFileSync(join(root, 'station.csv'), tenMinutes.replace(/.*01:20.*\r\n/, ''))
    const { stdout } = run(['import', 'weather', 'station.csv', '--as-of', '2026-07-01'], { cwd: root })
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      '25 rows every 10 minutes, made into 4 hours, Mon 1 Jun 00:00 to Mon 1 Jun 03:00.',
    )
    expect(stdout).toContain('Niederschlag (mm): rain, mm (by its heading)')
    expect(stdout).toContain('Not used: Windböe (km/h).')
    expect(stdout).toContain('unknown in 1 of 4')
    expect(stdout).toContain('unknown where a reading is\nmissing')
    expect(stdout).toContain('left for the next export: Mon 1 Jun 04:00')
  })
  test('the look says by which clock the times of the file are, where that is not the own one', () => {
    const rows = 'Temp °C\n2026-06-14 10:00,20\n2026-06-14 11:00,21\n'
    const { root } = imported(`Time (UTC+1),${rows}`)
    const look = () => {
      const { stdout } = run(['import', 'weather', 'station.csv', '--as-of', '2026-07-01'], { cwd: root })
      return stdout.replace(/\s+/g, ' ')
    }
    expect(look()).toContain("Its times are in UTC+01:00. Here they are in the vineyard's time.")
    writeFileSync(join(root, 'station.csv'), `Time (CET/CEST),${rows}`)
    expect(look()).not.toContain('Its times are in')
  })
  test('one in °F, inches and mph, month first, newest row first', () => {
    const rows = stationRows(48, 30, ({ day, clock, rain }) => {
      const [, month, date] = day.split('-').map(Number)
      const [hour, minute] = clock.split(':').map(Number)
      return `${month}/${date}/2026 ${hour! % 12 || 12}:${String(minute).padStart(2, '0')} ${hour! < 12 ? 'AM' : 'PM'},53.6,80,${rain},10`
    })
    const many = [...rows, ...rows.map((row) => row.replace('6/1/', '6/13/'))]
    const head = 'Date & Time,Temp - °F,Hum - %,Rain - in,Wind Speed - mph'
    const { text, status } = imported([head, ...many.toReversed()].join('\n'))
    expect(status).toBe(0)
    const lines = text().split('\n')
    expect(lines).toHaveLength(50)
    expect(lines[1]).toBe('2026-06-01T00:00,12,80,0,4.47')
    expect(lines[3]).toBe('2026-06-01T02:00,12,80,10.16,4.47')
  })
  test('a heading of two lines, times in two columns, and the station indoors left out', () => {
    const rows = stationRows(48, 30, ({ day, clock, rain }) => `${day}\t${clock}\t12.5\t80\t${rain}\t21`)
    const head = 'Date\tTime\tTemp\tHum\tRain\tTemp\n\t\tOut °C\tOut %\tmm\tIn °C'
    expect(imported(`${head}\n${rows.join('\n')}`).text()).toContain('2026-06-01T02:00,12.5,80,0.4\n')
  })
  test('a daily one with highest and lowest, and one whose clock never moves', () => {
    const daily = (clock: string) =>
      `Date,T max °C,T min °C,Rain (mm)\n14/6/2026${clock},21.5,9,0\n15/6/2026${clock},23,11,4.2\n`
    for (const clock of ['', ' 00:00'])
      expect(imported(daily(clock)).text()).toBe(
        'date,rain_mm,min_c,max_c\n2026-06-14,0,9,21.5\n2026-06-15,4.2,11,23\n',
      )
  })
  test('temperatures without a unit are all of one unit: a low of 30 beside a high of 50 is °F', () => {
    const text = 'Date,High Temp,Low Temp\n2026-04-01,50,32\n2026-04-02,53.6,30.2\n2026-04-03,50,32\n'
    expect(imported(text).text()).toContain('2026-04-02,-1,12\n')
  })
  test('times in UTC are brought to the clock of the vineyard', () => {
    const text = 'Time (UTC),Temperature °C\n2026-06-01T00:00:00,12\n2026-06-01T01:00:00,13\n'
    expect(imported(text).text()).toContain('2026-06-01T02:00,12\n')
  })
  test('a counter of rain is asked for, and then its rise is taken', () => {
    const text = runningTotal()
    const asked = imported(text)
    expect(asked).toMatchObject({ status: 2 })
    expect(asked.stderr).toContain('running total')
    expect(asked.stderr).toContain('--rain counter')
    const { text: written } = imported(text, ['--rain', 'counter'])
    expect(written()).toContain('2026-06-01T00:00,12,\n2026-06-01T01:00,12,0\n2026-06-01T02:00,12,0.8\n')
  })
  test.each([
    ['only the time', 'Time,A,B\n2026-06-01T00:00,1,2\n', 'only the time is understood'],
    ['two of one', 'Time,Temp 1,Temp 2\n2026-06-01T00:00,12,13\n', 'may each be the temperature'],
    ['day or month', 'Date,T max,T min\n3/6/2026,20,9\n', '--dates day-first, or --dates month-first'],
    ['°F under °C', 'Time,Temp °C\n2026-06-01T00:00,53\n2026-06-01T01:00,54\n', 'this reads like °F'],
    [
      'rain of an hour',
      `Time,Temp °C,Hourly Rain mm\n${stationRows(20, 15, ({ day, clock }) => `${day} ${clock},12,0`).join('\n')}`,
      'the rain of the last hour',
    ],
    ['no row', 'hello\nworld\n', 'no column of times'],
    ['text for numbers', 'Time,Temp °C,Rain mm\n2026-06-01T00:00,warm,0\n', 'holds no number'],
    ['nothing', '\n', 'holds nothing'],
  ])('what can be read in two ways is asked for: %s', (_, text, message) => {
    const { status, stderr, root } = imported(text)
    expect(status).toBe(2)
    expect(flat(stderr)).toContain(message)
    expect(existsSync(join(root, FILE))).toBe(false)
  })
  test.each([
    ['column-unclear', 'Time,Temp 1,Temp 2\n2026-06-01T00:00,12,13\n'],
    ['date-unclear', 'Date,T max,T min\n3/6/2026,20,9\n'],
    ['unit-unclear', 'Time,Temp °C\n2026-06-01T00:00,53\n2026-06-01T01:00,54\n'],
    ['rain-counts-up', runningTotal()],
  ])('what is asked for is a finding of its own: %s', (name, text) => {
    const root = ledgerWith({})
    writeFileSync(join(root, 'station.csv'), text)
    expect(importPlan(root, join(root, 'station.csv')).findings.map((one) => one.name)).toContain(name)
  })
  test('a column is said, or left out', () => {
    const text = 'Time,Temp 1,Temp 2,X\n2026-06-01T00:00,12,13,0.4\n'
    expect(imported(text, ['--columns', 'temperature=Temp 2, rain=X']).text()).toContain(
      '2026-06-01T00:00,13,0.4',
    )
    expect(imported(text, ['--columns', 'temperature=none, rain=X']).text()).toBe(
      'time,rain_mm\n2026-06-01T00:00,0.4\n',
    )
  })
  test('wind without a unit is left out and named', () => {
    const { text, stdout } = imported('Time,Temp °C,Wind\n2026-06-01T00:00,12,13\n')
    expect(text()).toBe('time,temperature_c\n2026-06-01T00:00,12\n')
    expect(stdout.replace(/\s+/g, ' ')).toContain('--column-units wind=m/s (or km/h,')
  })
})

describe('importing again', () => {
  const first = 'time,temperature_c,rain_mm\n# by hand\n2026-06-01T00:00,12.5,\n2026-06-01T01:00,12,0.2\n'
  test('fills what was empty, adds columns, and names what differs without changing it', () => {
    const { text, stdout } = imported(
      'Time,Temp °C,Rain mm,Hum %\n2026-06-01T00:00,12.5,1.4,80\n2026-06-01T01:00,13,0.2,\n2026-06-01T02:00,11,0,90\n',
      [],
      { [FILE]: first },
    )
    expect(text()).toBe(
      'time,temperature_c,rain_mm,humidity_pct\n# by hand\n2026-06-01T00:00,12.5,1.4,80\n2026-06-01T01:00,12,0.2,\n2026-06-01T02:00,11,0,90\n',
    )
    expect(stdout).toContain('1 row added, 1 row filled')
    expect(stdout).toContain('Mon 1 Jun 01:00  temperature: 12 °C recorded, the file has 13 °C')
  })
  test('with nothing new leaves the file as it was', () => {
    const { text, stdout } = imported(first, [], { [FILE]: first })
    expect(text()).toBe(first)
    expect(stdout).toContain('Nothing is new')
  })
})
