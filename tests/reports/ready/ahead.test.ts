import { describe, expect, test } from 'vitest'
import type { HourlyWeather } from '../../../src/agronomy/weather/weather-hours.ts'
import { everyHour } from '../../../src/agronomy/weather/weather-hours.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { dayOf, isoDate } from '../../../src/records/date.ts'
import { pressureAhead } from '../../../src/reports/ready/ahead.ts'
import { ready } from '../../../src/reports/ready/report.ts'
import { window } from '../../../src/reports/window/report.ts'
import { makeLedger } from '../../ledger/make.ts'

const AS_OF = '2026-09-14'

/** A week of hours from the day, wet from the given hour of the second day for so many hours. */
function week({ wet, humidity = 60 }: { wet: number; humidity?: number | null }) {
  const start = dayOf(AS_OF)
  const rows = Array.from({ length: 7 * 24 }, (_, at): HourlyWeather => {
    const isWet = at >= 30 && at < 30 + wet
    return {
      ...{ day: start + Math.floor(at / 24), hour: at % 24, temperature: 20 },
      ...{ humidity: isWet ? 95 : humidity, rain: humidity === null ? null : isWet ? 0.5 : 0, wetness: null },
    }
  })
  return everyHour(rows)
}

describe('disease pressure ahead', () => {
  const said = (forecast?: Parameters<typeof pressureAhead>[1], files: Record<string, string> = {}) => {
    const ledger = openLedger(makeLedger(files), { seasons: 'all' })
    return pressureAhead({ ledger, season: 2026, asOf: AS_OF, block: ledger.blocks.get('upper')! }, forecast)
  }
  const none = { means: new Map<number, number>(), rain: new Map<number, number>() }
  const days = (of: readonly number[]) =>
    new Map(of.map((value, at) => [dayOf(AS_OF) - 1 + at, value] as const))

  test('without a forecast nothing', () => {
    expect(said()).toBeNull()
  })
  test('days only: downy by rain and mean of two days, the others not told, and why', () => {
    const means = days([15, 15, 15, 15, 15, 15, 15, 15])
    const wet = said({ hours: null, means, rain: days([0, 0, 6, 4, 0, 0, 0, 0]) })
    expect(wet).toMatch(/downy primary infection possible on Wed 16 Sep, by rain and mean of two days/)
    expect(wet).toMatch(/botrytis and powdery unknown: they need hours.*days only/)
    expect(said({ hours: null, means, rain: days([0, 0, 6, 3.9, 0, 0, 0, 0]) })).toMatch(
      /no primary infection/,
    )
    const cold = days([9, 9, 9, 9, 9, 9, 9, 9])
    expect(said({ hours: null, means: cold, rain: days([0, 0, 6, 6, 0, 0, 0, 0]) })).toMatch(/no primary/)
    expect(said({ hours: null, means, rain: days([0, 0, 6]) })).toMatch(/2 of 7 days forecast/)
    expect(said({ ...none, hours: null })).toMatch(/downy unknown/)
    const file = { 'seasons/2026/weather.csv': 'date,min_c,max_c,rain_mm\n2026-09-13,12,18,7\n' }
    const today = new Map([[dayOf(AS_OF), 15]])
    const rain = new Map([[dayOf(AS_OF), 3]])
    expect(said({ hours: null, means: today, rain }, file)).toMatch(
      /possible on Mon 14 Sep, .*1 of 7 days forecast/,
    )
  })
  test('hours tell the worst day of botrytis, the powdery index, and downy', () => {
    expect(said({ ...none, hours: week({ wet: 0 }) })).toMatch(/botrytis none on any day;/)
    const wet = said({ ...none, hours: week({ wet: 30 }) })
    expect(wet).toMatch(/botrytis high at worst, on Tue 15 Sep after 18 wet hours at 20 °C/)
    expect(wet).toMatch(/powdery index \d+ of 100 at most/)
    expect(wet).toMatch(/downy primary infection possible on Wed 16 Sep/)
  })
  test('the powdery index goes on from the hours that are known', () => {
    const hours = (from: string, count: number) =>
      Array.from({ length: 24 * count }, (_, at) => {
        const date = isoDate(dayOf(from) + Math.floor(at / 24))
        return `${date}T${String(at % 24).padStart(2, '0')}:00,24,60,0`
      })
    const csv = ['time,temperature_c,humidity_pct,rain_mm', ...hours('2026-09-01', 13)].join('\n')
    const alone = said({ ...none, hours: week({ wet: 0 }) })!
    const after = said({ ...none, hours: week({ wet: 0 }) }, { 'seasons/2026/weather.csv': csv })!
    const index = (text: string) => Number(/powdery index (\d+)/.exec(text)![1])
    // 100 by the warm days known; the 20 °C foretold lie below the range and take 10 a day.
    expect(index(after)).toBe(90)
    expect(index(alone)).toBe(0)
  })
  test('hours without humidity or rain are not taken as dry', () => {
    expect(said({ ...none, hours: week({ wet: 0, humidity: null }) })).toMatch(
      /botrytis unknown.*downy unknown/,
    )
  })
})

describe('as pressed', () => {
  const past = (year: number, brix: number, pressed: number) => ({
    [`seasons/${year}/samples.yaml`]: `- { date: ${year}-09-18, block: upper, berries: 100, brix: ${brix} }\n`,
    [`seasons/${year}/picks.yaml`]: `- { date: ${year}-09-20, block: upper, weight: 900 kg, brix: ${pressed} }\n`,
  })
  const files = {
    ...past(2023, 20, 21),
    ...past(2024, 20.5, 21.4),
    ...past(2025, 19.8, 20.9),
    'seasons/2026/samples.yaml': ['2026-08-22', '2026-08-29', '2026-09-05', '2026-09-12']
      .map((date, week) => `- { date: ${date}, block: upper, berries: 100, brix: ${15.2 + 1.4 * week} }\n`)
      .join(''),
  }
  const input = () => {
    const ledger = openLedger(makeLedger(files), { seasons: 'all' })
    return { ledger, season: 2026, asOf: AS_OF, blocks: [ledger.blocks.get('upper')!] }
  }

  test('what the press reads more brings the window forward, and is said', () => {
    const plain = window(input()).data.blocks[0]!
    const pressed = window(input(), { asPressed: true }).data.blocks[0]!
    expect(plain.pressBias).toBeNull()
    expect(pressed.pressBias).toMatchObject({ brix: expect.closeTo(1, 9), picks: 3 })
    expect(pressed.likely! < plain.likely!).toBe(true)
    expect(pressed.uses).toContain('field-to-press')
    expect(plain.uses).not.toContain('field-to-press')
  })
  test('the sugar gate passes by it, no surer than samples and past differences allow', () => {
    const gate = (asPressed: boolean) =>
      ready(input(), { asPressed }).data.blocks[0]!.gates.find(({ gate }) => gate === 'sugar')!
    expect(gate(false).state).toBe('wait')
    expect(gate(true)).toMatchObject({ state: 'pass', detail: expect.stringMatching(/read 19\.4, \+1\.0/) })
    expect(gate(true).probability!).toBeGreaterThan(0.6)
    expect(gate(true).probability!).toBeLessThan(0.9)
  })
  test('without past picks nothing is added, and why is said', () => {
    const { 'seasons/2026/samples.yaml': samples } = files
    const ledger = openLedger(makeLedger({ 'seasons/2026/samples.yaml': samples }), { seasons: 'all' })
    const blocks = [ledger.blocks.get('upper')!]
    const found = window({ ledger, season: 2026, asOf: AS_OF, blocks }, { asPressed: true }).data.blocks[0]!
    expect(found.pressBias).toMatchObject({ brix: null, picks: 0, why: expect.stringMatching(/no pick/) })
  })
})
