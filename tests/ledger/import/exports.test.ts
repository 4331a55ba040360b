import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import type { Said } from '../../../src/ledger/import/recognised.ts'
import { planWeatherImport } from '../../../src/ledger/import/weather.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { isoDate } from '../../../src/records/date.ts'
import { importPlan } from '../import-plan.ts'
import { makeLedger } from '../make.ts'
import { DAYS, EXPORTS, type StationExport, truth } from './station-exports.ts'

const SITE = 'name: Test Rows\nlatitude: 51.5\nlongitude: 7.1\ntimezone: Europe/Berlin\n'

function planned({ text, args = {}, units }: StationExport) {
  const root = makeLedger({ 'vineyard.yaml': SITE + (units ? `units: ${units}\n` : '') })
  writeFileSync(join(root, 'station.csv'), text)
  const ledger = openLedger(root, { seasons: 'all' })
  return planWeatherImport(ledger, join(root, 'station.csv'), { said: args as Said })
}

describe('exports of invented stations give the weather that they were made from', () => {
  test.each(EXPORTS)('$name', (one) => {
    const plan = planned(one)
    expect(plan.findings.filter(({ level }) => level === 'error')).toEqual([])
    const { rows } = plan.source!.hours
    expect(Object.keys(rows.readings).toSorted()).toEqual([...one.reads].toSorted())
    const isDaily = one.reads.includes('max')
    expect(rows.length).toBe(one.rows ?? (isDaily ? 3 : 72))
    for (let row = 0; row < rows.length; row++) {
      const where = `${plan.source!.file} row ${row}`
      const at = isDaily ? null : truth(row)
      if (at) expect(rows.hour[row], where).toBe(row % 24)
      const day = DAYS[isDaily ? row : 0]!
      const wanted = {
        temperature: at?.t,
        humidity: at?.h,
        rain: at ? at.rain : day.rain,
        wind: at?.wind,
        wetness: at?.wet,
        min: day.min,
        max: day.max,
        mean: 14,
      }
      // A running total tells nothing about its first hour.
      const isFirst = one.args?.rain === 'counter' && row === 0
      for (const key of one.reads)
        if (!isFirst || key !== 'rain')
          expect(rows.readings[key]![row], `${where}, ${key}`).toBeCloseTo(wanted[key]!, 0.9)
    }
  })
})

describe('what an export leaves unclear', () => {
  const of = (text: string) => planned({ name: '', text, reads: [] })
  const errors = (text: string) =>
    of(text).findings.flatMap(({ level, message, help }) =>
      level === 'error' ? [`${message}; ${help}`] : [],
    )

  test('a column with dashes only is left out, and does not stop the import', () => {
    const { source, findings } = of(
      'Time,Temp °C,Leaf Wetness\n2026-06-01T00:00,12,-\n2026-06-01T01:00,12,-\n',
    )
    expect(findings).toEqual([])
    expect(source!.recognised!.columns[2]).toMatchObject({ as: 'unused' })
  })

  test('0, 15, 30 in a column of clock times are minutes where 100 follows', () => {
    const { rows } = of(
      'Date,HHMM,Temp °C\n2026-06-01,0,12\n2026-06-01,30,14\n2026-06-01,100,16\n2026-06-01,130,16\n',
    ).source!.hours
    expect([...rows.hour.slice(0, rows.length)]).toEqual([0, 1])
    expect(rows.readings.temperature![0]).toBe(13)
  })

  test('spreadsheet serial dates and days of the year are refused, with how to write them', () => {
    expect(errors('Date;Temp\n46183,0416667;12\n46183,0833333;12\n')).toEqual([
      expect.stringMatching(/46183,0416667 is 10 Jun 2026; .*format that column as yyyy-mm-dd hh:mm/),
    ])
    expect(errors('Year,DOY,HHMM,Temp\n2026,161,0,12\n2026,161,100,12\n')).toEqual([
      expect.stringMatching(/161 is 10 June.*=DATE\(2026,1,161\)/),
    ])
    expect(errors('A,B\n1,2\n')).toEqual([expect.stringContaining('no column of times')])
  })

  test('only columns that may hold what is lacking are asked about', () => {
    const open = (text: string) => of(text).source!.recognised!.open.map(({ name }) => name)
    const rows = (cells: string) => `2026-06-01T00:00,12,${cells}\n2026-06-01T01:00,13,${cells}\n`
    expect(open(`Time,Temp °C,Hum %,Rain mm,Abc,Def\n${rows('80,0,3,4')}`)).toEqual([])
    expect(open(`Time,Temp °C,Rain mm,Abc,Def\n${rows('0,1400,85')}`)).toEqual(['Def'])
    expect(open(`Time,Abc,Rain mm,Hum %,Def\n${rows('0,85,1400')}`)).toEqual(['Abc'])
    expect(open(`Time,Temp °C,Hum %,Abc,Def\n${rows('85,0,-3')}`)).toEqual(['Abc'])
  })
})

describe('the hours at which clocks change', () => {
  const rowsOf = (text: string) => planned({ name: '', text, reads: [] }).source!.hours.rows
  const clocks = ({ day, hour, length }: ReturnType<typeof rowsOf>) =>
    Array.from({ length }, (_, row) => `${isoDate(day[row]!).slice(8)} ${hour[row]}`)
  const epoch = (from: number, hours: number, step = 60) =>
    Array.from(
      { length: (hours * 60) / step },
      (_, at) => `${from / 1000 + at * step * 60},${at % 20},0.2`,
    ).join('\n')

  test('an export in UTC has the hour twice in autumn, and leaves it out in spring', () => {
    const autumn = rowsOf(`epoch,temp_c,rain_mm\n${epoch(Date.UTC(2026, 9, 24, 22), 6)}`)
    expect(clocks(autumn)).toEqual(['25 0', '25 1', '25 2', '25 2', '25 3', '25 4'])
    const spring = rowsOf(`epoch,temp_c,rain_mm\n${epoch(Date.UTC(2026, 2, 28, 23), 4)}`)
    expect(clocks(spring)).toEqual(['29 0', '29 1', '29 3', '29 4'])
  })
  test('20-minute rows of an hour that comes twice make two hours, each from its own rows', () => {
    const { source } = planned({
      name: '',
      text: `epoch,temp_c,rain_mm\n${epoch(Date.UTC(2026, 9, 24, 22), 6, 20)}`,
      reads: [],
    })
    expect(clocks(source!.hours.rows)).toEqual(['25 0', '25 1', '25 2', '25 2', '25 3', '25 4'])
    for (const rain of source!.hours.rows.readings.rain!.subarray(0, 6)) expect(rain).toBeCloseTo(0.6, 9)
  })
  test.each([
    ['Zeit (MEZ/MESZ)', '14 10'],
    ['Time (CET/CEST)', '14 10'],
    ['Time (UTC+1/+2)', '14 10'],
    ['Time (GMT/BST)', '14 10'],
    ['Zeit (MEZ)', '14 11'],
    ['Time (UTC+1)', '14 11'],
    ['Time (UTC/GMT)', '14 12'],
  ])('`%s` over 10:00 in June is %s by the clock of Berlin', (heading, clock) => {
    expect(clocks(rowsOf(`${heading},Temp °C\n2026-06-14 10:00,20\n2026-06-14 11:00,21\n`))[0]).toBe(clock)
  })
  test('the same export again adds nothing, not even for the hour that comes twice', () => {
    const root = makeLedger({ 'vineyard.yaml': SITE })
    const path = join(root, 'station.csv')
    writeFileSync(path, `epoch,temp_c,rain_mm\n${epoch(Date.UTC(2026, 9, 24, 22), 6)}`)
    importPlan(root, path, true)
    const [season] = importPlan(root, path).seasons
    expect(season).toMatchObject({ added: 0, known: 6, filled: 0, different: 0 })
  })
})

describe('cells of an export that hold no amount, or a partial one', () => {
  const said = (text: string, args: StationExport['args'] = {}) =>
    planned({ name: '', text, reads: [], args }).findings.map(
      ({ level, message, help }) => `${level}: ${message}; ${help}`,
    )
  test.each([
    [
      'a rate of rain alone',
      'Time,Temp °C,Rain rate mm/h\n2026-06-14 13:00,12,0\n',
      'warning: `Rain rate mm/h` says how hard it rains',
    ],
    [
      'only the ends of each hour',
      'Time,T max °C,T min °C,Rain mm\n2026-06-14 13:00,12,9,0\n2026-06-14 14:00,12,9,0\n',
      'no temperature is read',
    ],
    [
      'humidity of nothing over 1',
      'Time,Temp °C,Hum\n2026-06-14 13:00,12,1\n',
      'it may be % or a share of 1',
    ],
    ['kelvin', 'Time,Temp\n2026-06-14 13:00,285.3\n', 'neither °C nor °F'],
    [
      'another unit in the cells than in the heading',
      'Time,Temp °C\n2026-06-14 13:00,53 °F\n2026-06-14 14:00,54 °F\n',
      'says °C, and its cells say °F',
    ],
    ['tenths', 'Time,Temp (0.1 °C)\n2026-06-14 13:00,123\n', 'reads like steps of 0.1 °C'],
    [
      'tips of a gauge',
      'Time,Temp °C,Rain clicks\n2026-06-14 13:00,12,3\n',
      'say which: --column-units "rain=0.2 mm"',
    ],
    [
      'inches beside °F',
      'Date,Tmax,Tmin,Prcp\n2026-06-14,81,55,0.4\n2026-06-15,83,57,0\n',
      'its values could be mm or inches',
    ],
    [
      'leaf wetness in % between dry and wet',
      'Time,Temp °C,Leaf wetness %\n2026-06-14 13:00,12,30\n2026-06-14 14:00,12,45\n',
      'may be how wet the leaf was',
    ],
    [
      'a clock above the heading',
      'Times in UTC\nTime,Temp °C,Hum %\n2026-06-14 13:00,12,80\n',
      '--column-units time=UTC, or --column-units time=local',
    ],
    [
      'very many columns that are not understood',
      `Time,Temp °C,${Array.from({ length: 300 }, (_, at) => `Q${at}`).join(',')}\n2026-06-14 13:00,12${',1'.repeat(300)}\n`,
      '`Q11`, and 288 more are not understood',
    ],
    [
      'a heading that is not understood, by its unit',
      'Time,Temp °C,Xyzzy %\n2026-06-14 13:00,12,80\n',
      '--columns "humidity=Xyzzy %"',
    ],
    [
      'hours without a clock',
      `Date,Temp °C,Slot\n${Array.from({ length: 48 }, (_, at) => `2026-06-${14 + Math.floor(at / 24)},12,${at % 24}\n`).join('')}`,
      'most days stand there more than once',
    ],
    [
      'sums below the rows',
      'Time,Temp °C\n2026-06-14 13:00,12\nMean,12\n',
      'warning: the line below the last row',
    ],
  ])('%s', (_, text, message) => {
    expect(said(text).join('\n')).toContain(message)
  })
  test('a time zone that does not exist', () => {
    const how = { units: { time: 'noon' } }
    expect(said('Time,Temp °C\n2026-06-14 13:00,12\n', { how }).join()).toContain('`noon` is no clock')
  })
  test('a cell in another unit than its column is unknown, and reported', () => {
    const { source, findings } = planned({
      name: '',
      text: 'Time,Temp,Rain mm\n2026-06-14 13:00,12 °C,0\n2026-06-14 14:00,54 °F,0\n2026-06-14 15:00,13 °C,0\n',
      reads: [],
    })
    expect([...source!.hours.rows.readings.temperature!].slice(0, 3)).toEqual([12, Number.NaN, 13])
    expect(findings.find(({ name }) => name === 'bad-cell')?.message).toContain('54 °F')
  })
  test('a number followed by something that is not a unit is no reading', () => {
    const { findings } = planned({ name: '', text: 'Time,Temp °C\n2026-06-14 13:00,1O.5\n', reads: [] })
    expect(findings.map(({ name }) => name)).toContain('bad-cell')
  })
  test('a second row with the same time is left out and counted, except in the hour that clocks show twice', () => {
    const row = '2026-06-14 13:00,12\n'
    const { hours } = planned({
      name: '',
      text: `Time,Temp °C\n${row}${row}2026-06-14 14:00,13\n`,
      reads: [],
    }).source!
    expect(hours).toMatchObject({ twice: 1, rows: { length: 2 } })
    const night = '2026-10-25 02:00,12\n'
    const back = planned({ name: '', text: `Time,Temp °C\n${night}${night}${night}`, reads: [] }).source!
    expect(back.hours).toMatchObject({ twice: 1, rows: { length: 2 } })
  })
  test('a date with the year first needs no order of day and month', () => {
    const { source } = planned({
      name: '',
      text: 'Time,Temp °C\n2026/06/05 13:00,12\n',
      reads: [],
      args: { how: { dates: 'day-first' } },
    })
    expect(isoDate(source!.hours.rows.day[0]!)).toBe('2026-06-05')
  })
})

test('text for numbers is the only kind of fault where the worth of a count was typed, which is no unit of its own', () => {
  const plan = planned({
    name: '',
    text: 'Time,Temp °C,Rain\n2026-06-14 13:00,12,none fell\n2026-06-14 14:00,12,none fell\n',
    reads: [],
    args: { how: { units: { rain: '0.2 mm' } } },
  })
  expect(new Set(plan.findings.map(({ name }) => name))).toEqual(new Set(['bad-cell']))
})
