import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Weather } from '../../../src/facts/weather/hours.ts'
import { readWeatherFile } from '../../../src/ledger/weather/weather.ts'
import { addDays } from '../../../src/records/date.ts'
import { pressure, pressureOfFile } from '../../../src/reports/pressure/report.ts'
import {
  type DayOf,
  folder,
  freshFile,
  HEADER,
  inputOf,
  pressureOf,
  two,
  weatherText,
} from '../weather-ledger.ts'

describe('pressure', () => {
  test('a worked season of the rules as the University of California prints them', () => {
    const warm = [7, 6, 5, 8, 6, 9, 4, 0, 10, 6, 3, 7, 7, 6, 6, 0]
    const hot = new Set([9, 10, 14])
    const { days } = pressureOf(warm.map((hours, at) => ({ warm: hours, hot: hot.has(at) })))
    expect(days.map(({ powdery }) => powdery.index)).toEqual([
      20, 40, 0, 20, 40, 60, 50, 40, 60, 70, 60, 80, 100, 100, 100, 90,
    ])
    expect(days[0]!.powdery).toMatchObject({ points: 20, hoursInRange: 7 })
  })
  test('the index is a multiple of 10 within 0 to 100 with the allowed steps, and gaps are never silent', () => {
    const day = fc.record({
      warm: fc.integer({ min: 0, max: 12 }),
      hot: fc.boolean(),
      drop: fc.constantFrom<number[]>([], [], [8], [8, 20]),
    })
    fc.assert(
      fc.property(fc.array(day, { minLength: 4, maxLength: 25 }), (days) => {
        const seen = pressureOf(days).days
        const whole = pressureOf(days.map((one) => ({ ...one, drop: [] }))).days
        seen.forEach(({ powdery }, at) => {
          if (powdery.index === null) {
            expect(powdery.why).not.toBeNull()
            return
          }
          expect(powdery.index % 10).toBe(0)
          expect(powdery.index).toBeGreaterThanOrEqual(0)
          expect(powdery.index).toBeLessThanOrEqual(100)
          if (powdery.phase === 'running') expect([-10, 0, 10, 20]).toContain(powdery.points)
          if (powdery.index !== whole[at]!.powdery.index) expect(powdery.why).toMatch(/hours are missing/)
          expect(whole[at]!.powdery.index).toBeGreaterThanOrEqual(powdery.low!)
          expect(whole[at]!.powdery.index).toBeLessThanOrEqual(powdery.high!)
        })
      }),
      { numRuns: 40 },
    )
  })
  test('a missing hour changes no index of any disease without saying so', () => {
    const hour = fc.record({
      temperature: fc.integer({ min: 5, max: 33 }),
      rain: fc.constantFrom(0, 0, 0, 0.4, 2),
      wetness: fc.constantFrom(0, 0, 60),
    })
    const daysOf = (hours: readonly string[]) => {
      const path = freshFile()
      writeFileSync(path, `${HEADER}\n${hours.join('\n')}\n`)
      return pressureOfFile(new Weather(readWeatherFile(path)), { asOf: '2026-12-31', latitude: 50 }).data
        .days
    }
    const values = (day: ReturnType<typeof daysOf>[number]) => ({
      powdery: [day.powdery.index, day.powdery.why === null],
      ascospores: [day.powdery.ascospores, day.powdery.ascospores !== null],
      downy: [day.downy.primary, day.downy.primary !== null],
      secondary: [day.downy.secondary, day.downy.secondary !== null],
      botrytis: [
        `${day.botrytis.index} ${day.botrytis.risk}`,
        day.botrytis.complete || day.botrytis.risk === 'none',
      ],
      blackRot: [day.blackRot.infection, day.blackRot.complete && day.blackRot.infection !== null],
    })
    fc.assert(
      fc.property(
        fc.array(hour, { minLength: 144, maxLength: 144 }),
        fc.integer({ min: 1, max: 142 }),
        (hours, lost) => {
          const lines = hours.map(
            ({ temperature, rain, wetness }, at) =>
              `2026-06-0${1 + Math.floor(at / 24)}T${two(at % 24)}:00,${temperature},80,${rain},${wetness}`,
          )
          const whole = daysOf(lines).map(values)
          const gappy = daysOf(lines.filter((_, at) => at !== lost)).map(values)
          gappy.forEach((day, at) => {
            for (const key of Object.keys(day) as (keyof typeof day)[]) {
              const [value, isSure] = day[key]
              if (isSure) expect(`${at} ${key} ${value}`).toBe(`${at} ${key} ${whole[at]![key][0]}`)
            }
          })
        },
      ),
      { numRuns: 40 },
    )
  })
  test('10 mm in a day without an hour below 10 °C is a primary infection; 9.9 mm is none; a dropped hour is unknown', () => {
    const { days } = pressureOf([{}, { rain: 10 }, {}, { rain: 9.9 }, {}, { drop: [5] }, {}])
    expect(days.map(({ downy }) => downy.primary)).toEqual([null, true, true, false, false, null, null])
    expect(days[1]!.downy.why).toContain('10.0 mm')
  })
  test('a day with hours missing has a botrytis risk only as the least of it, and never none', () => {
    const riskOf = (wet: number) => {
      const path = freshFile()
      const lines = Array.from({ length: 24 }, (_, hour) =>
        hour < wet || hour > 20 ? [`2026-07-01T${two(hour)}:00,17,80,0,${hour < wet ? 60 : 0}`] : [],
      ).flat()
      writeFileSync(path, `${HEADER}\n${lines.join('\n')}\n`)
      return pressureOfFile(new Weather(readWeatherFile(path)), { asOf: '2026-12-31' }).data.days[0]!.botrytis
    }
    const missing = /hours are missing, so it may have been wet for longer/
    for (const wet of [1, 3, 9])
      expect(riskOf(wet)).toMatchObject({ risk: null, index: null, why: expect.stringMatching(missing) })
    expect(riskOf(18)).toMatchObject({
      risk: expect.stringMatching(/low|moderate|high/),
      beyond: 'at least',
      why: expect.stringMatching(missing),
    })
  })
  test('a day without temperature has no index, and a daily file none at all', () => {
    const none = Array.from({ length: 24 }, (_, hour) => hour)
    expect(pressureOf([{ warm: 7 }, { drop: none }, { warm: 7 }]).days[1]!.powdery).toMatchObject({
      index: null,
      why: 'no temperature on this day',
    })
    const path = join(folder, 'daily.csv')
    writeFileSync(path, 'date,min_c,max_c\n2026-06-01,10,20\n')
    const { days, why } = pressureOfFile(new Weather(readWeatherFile(path)), { asOf: '2026-12-31' }).data
    expect(why).toContain('one row a day')
    expect(days[0]).toMatchObject({
      powdery: { index: null },
      downy: { primary: null },
      botrytis: { risk: null },
      blackRot: { infection: null },
    })
  })
  test('the worst fortnight is the one with most days of infection, with its rain and warmth', () => {
    const days = Array.from({ length: 60 }, (_, at): DayOf => ({ rain: at >= 30 && at < 36 ? 10 : 0 }))
    const { worstFortnight: worst } = pressureOf(days)
    // Rain at noon on 1 to 6 July: primary infection is possible on those days and the morning after.
    expect(worst).toMatchObject({ from: '2026-06-24', to: '2026-07-07', downyDays: 7, rain: 60 })
    expect(worst!.temperature).toBeCloseTo(15, 9)
    expect(pressureOf(days.slice(0, 30)).worstFortnight).toBeNull()
    const gap = days.map((day, at) => (at === 32 ? { ...day, drop: [3] } : day))
    expect(pressureOf(gap).worstFortnight).toMatchObject({ rain: null })
  })
  test('the index runs anew from budbreak; before flowering nothing is told; the choices are said', () => {
    const files = {
      'seasons/2026/weather.csv': weatherText(
        '2026-04-01',
        Array.from({ length: 80 }, () => ({ warm: 7 })),
      ),
      'seasons/2026/stages/a.yaml': ['upper', 'lower']
        .map(
          (block) =>
            `- { date: 2026-04-20, block: ${block}, stage: 9 }\n- { date: 2026-06-10, block: ${block}, stage: 65 }\n`,
        )
        .join(''),
    }
    const { days, rules } = pressure(inputOf(files, '2026-06-15')).data
    const on = (date: string) => days.find((day) => day.date === date)!
    // A note says that the vines had reached the stage by then: the days before it are not taken for safe.
    expect(on('2026-04-19').powdery.index).toBe(100)
    expect(on('2026-04-20').powdery.index).toBe(20)
    expect(on('2026-05-10').botrytis).toMatchObject({ risk: null, why: 'before flowering' })
    expect(on('2026-06-10').botrytis).toMatchObject({ risk: 'none', index: 0 })
    expect(days.at(-1)!.date).toBe('2026-06-15')
    expect(rules.find(({ index }) => index === 'powdery')!.rule).toContain(
      'started again at the budbreak noted on Mon 20 Apr',
    )
  })
})

test('limits of downy primary infection can be changed, and the rule says so', () => {
  const path = join(mkdtempSync(join(tmpdir(), 'rowbook-limits-')), 'w.csv')
  const day = (date: string, rain: number) =>
    Array.from({ length: 24 }, (_, hour) => `${date}T${String(hour).padStart(2, '0')}:00,15,${rain}`)
  const lines = ['time,temperature_c,rain_mm', ...day('2026-05-31', 0), ...day('2026-06-01', 0.25)]
  writeFileSync(path, `${lines.join('\n')}\n`)
  const of = (limits?: { rain: number }) =>
    pressureOfFile(new Weather(readWeatherFile(path)), { asOf: '2026-12-31', limits }).data
  expect(of().days.at(-1)?.downy.primary).toBe(false)
  const changed = of({ rain: 6 })
  expect(changed.days.at(-1)?.downy.primary).toBe(true)
  expect(changed.rules.find(({ index }) => index === 'downy')?.rule).toContain(
    '6 mm within any 24 h with no hour below 10 °C, your limits',
  )
})

describe('downy oospores and the limits of vineyard.yaml', () => {
  const weather = (from: string, days: number) =>
    weatherText(
      from,
      Array.from({ length: days }, () => ({})),
    )
  const files = (from: string, days: number) => ({ 'seasons/2026/weather.csv': weather(from, days) })

  test('ripe on the first day above 170: 7 °C-days a day from 1 January, so on the 25th', () => {
    const of = (days: number) => {
      const to = addDays('2026-01-01', days - 1)
      return pressure(inputOf(files('2025-12-25', days + 7), to), { from: '2026-01-01' }).data.oospores
    }
    expect(of(24)).toMatchObject({ from: '2026-01-01', ripe: false, ripeOn: null, why: null })
    expect(of(24).sum).toBeCloseTo(168)
    expect(of(30)).toMatchObject({ ripe: true, ripeOn: '2026-01-25' })
  })

  test('null with the reason where January is not covered', () => {
    const { oospores } = pressure(inputOf(files('2026-04-01', 90), '2026-06-20')).data
    expect(oospores).toMatchObject({
      sum: null,
      ripe: null,
      why: expect.stringContaining('has them only from Wed 1 Apr'),
    })
  })

  test('in the south the sum runs from 1 July', () => {
    const vineyard = 'name: T\nlatitude: -41\nlongitude: 174\ntimezone: Pacific/Auckland\n'
    const south = { ...files('2025-07-01', 120), 'vineyard.yaml': vineyard }
    const { oospores } = pressure(inputOf(south, '2025-10-20')).data
    expect(oospores).toMatchObject({ from: '2025-07-01', ripe: true, ripeOn: '2025-07-25' })
  })

  test('vineyard.yaml sets the limits, an option comes before it', () => {
    const vineyard =
      'name: T\nlatitude: 51.5\nlongitude: 7.1\ntimezone: Europe/Berlin\ndowny: { rain: 6 mm, temperature: 9 C }\n'
    const input = inputOf({ ...files('2026-05-01', 3), 'vineyard.yaml': vineyard }, '2026-05-03')
    const rule = (limits?: { rain: number }) =>
      pressure(input, { limits }).data.rules.find(({ index }) => index === 'downy')?.rule
    expect(rule()).toContain('6 mm within any 24 h with no hour below 9 °C, your limits')
    expect(rule({ rain: 8 })).toContain('8 mm within any 24 h with no hour below 9 °C, your limits')
  })
})
