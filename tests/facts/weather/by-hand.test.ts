import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { filledByHand } from '../../../src/facts/weather/by-hand.ts'
import { weatherDaysOf } from '../../../src/facts/weather/in-short.ts'
import { addDays, dayOf } from '../../../src/records/date.ts'
import { PLAIN } from '../../../src/render/style.ts'
import { cover } from '../../../src/reports/cover/report.ts'
import { renderCover } from '../../../src/reports/cover/terminal.ts'
import { heat } from '../../../src/reports/heat/report.ts'
import { fieldsOf } from '../../../src/reports/note/fields.ts'
import { readValue } from '../../../src/reports/note/read-value.ts'
import { readWeatherDays } from '../../../src/reports/note/read-weather.ts'
import { note } from '../../../src/reports/note/report.ts'
import { pressure } from '../../../src/reports/pressure/report.ts'
import { renderPressure } from '../../../src/reports/pressure/terminal.ts'
import { ledgerOf } from '../../ledger/in-memory.ts'
import { weatherText } from '../../reports/weather-ledger.ts'

interface Day {
  low: number | null
  high: number | null
  rain: number | null
}

const FIRST = '2026-05-01'
const CSV = 'seasons/2026/weather.csv'
const HAND = 'seasons/2026/weather.yaml'
const shown = (value: number | null) => (value === null ? '' : String(value))

const asCsv = (days: readonly Day[]) =>
  `date,min_c,max_c,rain_mm\n${days
    .map(({ low, high, rain }, at) => [addDays(FIRST, at), shown(low), shown(high), shown(rain)].join(','))
    .join('\n')}\n`

const asEntries = (days: readonly Day[]) =>
  days
    .map(({ low, high, rain }, at) => {
      const readings = [
        ['low', low, 'C'],
        ['high', high, 'C'],
        ['rain', rain, 'mm'],
      ].filter(([, value]) => value !== null)
      if (readings.length === 0) return ''
      const fields = readings.map(([key, value, unit]) => `${key}: ${value} ${unit}`)
      return `- { date: ${addDays(FIRST, at)}, ${fields.join(', ')} }\n`
    })
    .join('')

const tenths = (min: number, max: number) => fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10)
const anyDay = fc.record({
  low: fc.option(tenths(-5, 14)),
  high: fc.option(tenths(15, 35)),
  rain: fc.option(tenths(0, 40)),
})
const DAYS = fc.array(anyDay, { minLength: 3, maxLength: 60 }).map((days) => {
  const whole = { low: 8, high: 20, rain: 0 }
  return [whole, ...days, whole]
})

const figures = (files: Record<string, string>) => {
  const ledger = ledgerOf(files)
  const blocks = [...ledger.blocks.values()]
  const { data } = heat({ ledger, season: 2026, asOf: '2026-09-30', blocks }, {})
  const days = weatherDaysOf(ledger, 2026).map(({ byHand: _, ...day }) => day)
  return { sum: data.sum, days }
}

describe('weather read by hand', () => {
  test('gives the same days and sums as a station file of the same days', () => {
    fc.assert(
      fc.property(DAYS, (days) => {
        expect(figures({ [HAND]: asEntries(days) })).toEqual(figures({ [CSV]: asCsv(days) }))
      }),
      { numRuns: 60 },
    )
  })

  test('fills what a station lacks, and never changes what it has', () => {
    fc.assert(
      fc.property(DAYS, DAYS, (station, hand) => {
        const alone = weatherDaysOf(ledgerOf({ [CSV]: asCsv(station) }), 2026)
        const both = new Map(
          weatherDaysOf(ledgerOf({ [CSV]: asCsv(station), [HAND]: asEntries(hand) }), 2026).map((day) => [
            day.day,
            day,
          ]),
        )
        for (const day of alone) {
          const now = both.get(day.day)!
          for (const key of ['min', 'max', 'rain'] as const)
            if (day[key] !== null) expect(now[key]).toBe(day[key])
        }
      }),
      { numRuns: 40 },
    )
  })

  test('leaves days without a reading unknown, and marks those read by hand', () => {
    const day = dayOf(FIRST)
    const days = filledByHand(
      [],
      [
        { day, min: 8, max: 20, rain: null },
        { day: day + 2, min: null, max: null, rain: 4 },
      ],
    )
    expect(days.map(({ min, max, mean, rain, byHand }) => ({ min, max, mean, rain, byHand }))).toEqual([
      { min: 8, max: 20, mean: 14, rain: null, byHand: true },
      { min: null, max: null, mean: null, rain: null, byHand: undefined },
      { min: null, max: null, mean: null, rain: 4, byHand: true },
    ])
  })

  test('is told apart from a station: readings that fill gaps are counted, and days that the station has are named', () => {
    const station = 'date,min_c,max_c,rain_mm\n2026-05-01,8,20,0\n2026-05-02,,,1\n2026-05-03,9,21,0\n'
    const hand =
      '- { date: 2026-05-01, low: 7 C, high: 19 C }\n- { date: 2026-05-02, low: 6 C, high: 18 C }\n'
    const ledger = ledgerOf({ [CSV]: station, [HAND]: hand })
    const blocks = [...ledger.blocks.values()]
    const { data } = heat({ ledger, season: 2026, asOf: '2026-05-03', blocks }, { from: '2026-05-01' })
    expect(data.byHand).toBe(1)
    expect(data.days.map(({ byHand }) => byHand)).toEqual([undefined, true, undefined])
    expect(
      heat({ ledger: ledgerOf({ [HAND]: hand }), season: 2026, asOf: '2026-05-03', blocks }, {}).data.byHand,
    ).toBe(null)
    const beside = (entry: Record<string, string>) =>
      note({ ledger: ledgerOf({ [CSV]: station }), kind: 'weather', season: 2026, asOf: '2026-05-03', entry })
        .report.data.beside
    expect(beside({ date: '2026-05-01', low: '7 C', rain: '2 mm' })).toBe(
      'the station has read the lowest, 8 °C; the rain, 0 mm on Fri 1 May; its readings are used, and yours where it has none',
    )
    expect(beside({ date: '2026-05-02', low: '7 C' })).toBe(null)
    expect(beside({ date: '2026-05-09', low: '7 C' })).toBe(null)
  })

  test('continues where an hourly station stopped, for rain, wash-off and three tens, and says so', () => {
    const files = (rain: string) => ({
      [CSV]: weatherText(
        '2026-06-01',
        Array.from({ length: 10 }, () => ({})),
      ),
      [HAND]: `- { date: 2026-06-11, low: 12 C, high: 22 C, rain: 0 mm }
- { date: 2026-06-12, low: 12 C, high: 22 C, rain: ${rain} }
- { date: 2026-06-13, low: 12 C, high: 22 C, rain: 0 mm }
`,
      'seasons/2026/stages/a.yaml': '- { date: 2026-05-20, block: upper, stage: 57 }\n',
      'seasons/2026/sprays/a.yaml':
        '- { date: 2026-06-10, time: 8:00-9:00, blocks: [upper], water: 300 L/ha, products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }\n',
    })
    const seen = (rain: string) => {
      const ledger = ledgerOf(files(rain))
      const input = {
        ledger,
        season: 2026,
        asOf: '2026-06-13',
        blocks: [...ledger.blocks.values()].filter(({ id }) => id === 'upper'),
      }
      const covers = cover(input)
      const pressures = pressure(input)
      const { covered, rainSince } = covers.data.blocks[0]!.days.at(-1)!
      return { covers, pressures, data: pressures.data, covered, rainSince }
    }
    const wet = seen('26 mm')
    expect([wet.covered, wet.rainSince]).toEqual([false, 26])
    expect(wet.covers.data.blocks[0]!.sprays).toMatchObject([{ until: '2026-06-11', reason: 'washed off' }])
    expect(wet.data.days.slice(-4).map(({ date, downy }) => [date, downy.primary])).toEqual([
      ['2026-06-10', false],
      ['2026-06-11', false],
      ['2026-06-12', true],
      ['2026-06-13', true],
    ])
    // The hours before the gauge took over still count, and no index is made up for days without hours.
    expect(wet.data.days.at(-4)!.powdery.index).not.toBeNull()
    expect(wet.data.days.at(-1)!.powdery).toMatchObject({ index: null, why: 'needs hourly weather' })
    expect(wet.data.incubations.at(-1)!.progress.fast).toBeGreaterThan(0)
    const light = seen('4 mm')
    expect([light.covered, light.rainSince]).toEqual([true, 4])
    const said = 'Your own readings fill 3 days that the station lacks: 11 Jun to 13 Jun.'
    const style = { columns: 200, units: 'metric', paint: PLAIN } as const
    expect(renderPressure(wet.pressures, style, { blocks: new Map() })).toContain(said)
    expect(wet.data.rules.find(({ index }) => index === 'downy')!.rule).toContain(
      'any 24 h with no hour below 10 °C; days without hours: 10 mm within two calendar days with a mean of 10 °C',
    )
    expect(renderCover(wet.covers, style, { blocks: new Map(), products: new Map() })).toContain(said)
  })

  test('two entries of a day, lowest above highest, and an empty day are reported', () => {
    const told = (text: string) => ledgerOf({ [HAND]: text }).findings.map(({ name }) => name)
    expect(told('- { date: 2026-05-01, low: 20 C, high: 8 C }\n')).toEqual(['impossible-value'])
    expect(told('- { date: 2026-05-01, note: forgot }\n')).toEqual(['missing-value'])
    expect(told('- { date: 2026-05-01, low: 8 }\n')).toEqual(['needs-unit'])
  })
})

describe('several days at once', () => {
  const when = { today: '2026-06-24', order: 'day-first', units: 'metric' } as const
  test('are read in the units of the site', () => {
    expect(readWeatherDays(['mon 8 21 4; tue 9.5 22 ?'], when).entries).toEqual([
      { date: '2026-06-22', low: '8 C', high: '21 C', rain: '4 mm' },
      { date: '2026-06-23', low: '9.5 C', high: '22 C' },
    ])
    expect(readWeatherDays(['22 june 48 70 0.2'], { ...when, units: 'us' }).entries).toEqual([
      { date: '2026-06-22', low: '48 F', high: '70 F', rain: '0.2 in' },
    ])
  })
  test('accept words for rain, other units, and frost', () => {
    expect(readWeatherDays(['mon -3 8C none; tue 41F 14 trace; sun ? ? 0.2in'], when).entries).toEqual([
      { date: '2026-06-22', low: '-3 C', high: '8 C', rain: '0 mm' },
      { date: '2026-06-23', low: '41 F', high: '14 C', rain: '0.1 mm' },
      { date: '2026-06-21', rain: '0.2 in' },
    ])
    expect(readWeatherDays(['mon 30 50 T; tue 30 50 .1'], { ...when, units: 'us' }).entries).toEqual([
      { date: '2026-06-22', low: '30 F', high: '50 F', rain: '0.01 in' },
      { date: '2026-06-23', low: '30 F', high: '50 F', rain: '0.1 in' },
    ])
    const swapped = readWeatherDays(['mon 21 8 0'], when).fault
    expect(swapped).toMatchObject({ message: 'the lowest temperature, 21 C, is above the highest, 8 C' })
    expect(readWeatherDays(['mon ? ? ?'], when).fault?.message).toBe('this day has no reading')
  })
  test('rain in words is read where one day is noted too', () => {
    const rain = fieldsOf('weather').find(({ option }) => option === 'rain')!
    const read = (text: string) => readValue(rain, [text], when).value
    expect(['none', 'Dry', 'trace', '4mm'].map(read)).toEqual(['0 mm', '0 mm', '0.1 mm', '4 mm'])
  })
  test.each(['mon 8mm 21 4', 'mon 8 21 4C', 'mon 8 21', 'mon eight 21 4', 'someday 8 21 4', ''])(
    '%s is refused or nothing',
    (text) => {
      const { entries, fault } = readWeatherDays([text], when)
      expect(fault !== undefined || entries!.length === 0).toBe(true)
    },
  )
})
