import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { weatherOfFile } from '../../src/facts/weather/hours.ts'
import { openLedger } from '../../src/ledger/read/open.ts'
import { readWeatherFile } from '../../src/ledger/weather/weather.ts'
import { addDays } from '../../src/records/date.ts'
import { cover } from '../../src/reports/cover/report.ts'
import { heat } from '../../src/reports/heat/report.ts'
import { pressure, pressureOfFile } from '../../src/reports/pressure/report.ts'
import { scouting } from '../../src/reports/scouting/report.ts'
import { unlikelyWalk } from '../../src/rules/slips/unlikely-walk.ts'
import { makeLedger } from '../ledger/make.ts'

const folder = mkdtempSync(join(tmpdir(), 'rowbook-pressure-'))
const HEADER = 'time,temperature_c,humidity_pct,rain_mm,wetness_min'
const two = (value: number) => String(value).padStart(2, '0')

interface DayOf {
  /** Hours at 25 °C from six o'clock; the others have 15 °C. */
  warm?: number
  rain?: number
  hot?: boolean
  drop?: number[]
}

function weatherText(from: string, days: readonly DayOf[]): string {
  const lines = days.flatMap(({ warm = 0, rain = 0, hot = false, drop = [] }, at) =>
    Array.from({ length: 24 }, (_, hour) => {
      if (drop.includes(hour)) return []
      const temperature = hot && hour === 20 ? 36 : hour >= 6 && hour < 6 + warm ? 25 : 15
      return [`${addDays(from, at)}T${two(hour)}:00,${temperature},70,${hour === 12 ? rain : 0},0`]
    }).flat(),
  )
  return `${[HEADER, ...lines].join('\n')}\n`
}

let files = 0
function pressureOf(days: readonly DayOf[]) {
  const path = join(folder, `${files++}.csv`)
  writeFileSync(path, weatherText('2026-06-01', days))
  return pressureOfFile(weatherOfFile(readWeatherFile(path)), { asOf: '2026-12-31' }).data
}

function inputOf(files: Record<string, string>, asOf: string) {
  const ledger = openLedger(makeLedger(files), { seasons: 'all' })
  return { ledger, season: 2026, asOf, blocks: [...ledger.blocks.values()] }
}

describe('pressure', () => {
  test('the worked season of references/disease.md, S1', () => {
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
          if (powdery.index !== whole[at]!.powdery.index) expect(powdery.why).toMatch(/missing hours/)
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
      const path = join(folder, `${files++}.csv`)
      writeFileSync(path, `${HEADER}\n${hours.join('\n')}\n`)
      return pressureOfFile(weatherOfFile(readWeatherFile(path)), { asOf: '2026-12-31', latitude: 50 }).data
        .days
    }
    const values = (day: ReturnType<typeof daysOf>[number]) => ({
      powdery: [day.powdery.index, day.powdery.why === null],
      ascospores: [day.powdery.ascospores, day.powdery.ascospores !== null],
      downy: [day.downy.primary, day.downy.primary !== null],
      secondary: [day.downy.secondary, day.downy.secondary !== null],
      botrytis: [`${day.botrytis.index} ${day.botrytis.risk}`, day.botrytis.complete],
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
  test('a day without temperature has no index, and a daily file none at all', () => {
    const none = Array.from({ length: 24 }, (_, hour) => hour)
    expect(pressureOf([{ warm: 7 }, { drop: none }, { warm: 7 }]).days[1]!.powdery).toMatchObject({
      index: null,
      why: 'no temperature on this day',
    })
    const path = join(folder, 'daily.csv')
    writeFileSync(path, 'date,min_c,max_c\n2026-06-01,10,20\n')
    const { days, why } = pressureOfFile(weatherOfFile(readWeatherFile(path)), { asOf: '2026-12-31' }).data
    expect(why).toContain('need hours')
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
      'anew from budbreak noted on Mon 20 Apr',
    )
  })
})

describe('cover', () => {
  const sprays =
    '- { date: 2026-06-01, time: 18:00-19:00, blocks: [upper], water: 300 L/ha, products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }\n'
  const stages =
    '- { date: 2026-05-01, block: upper, stage: 13 }\n- { date: 2026-05-20, block: upper, stage: 71 }\n'
  const coverOf = (
    days: readonly DayOf[],
    asOf = '2026-06-20',
    spray = sprays,
    more: Record<string, string> = {},
  ) => {
    const files = {
      ...more,
      'seasons/2026/weather.csv': weatherText('2026-05-25', days),
      'seasons/2026/sprays/a.yaml': spray,
      'seasons/2026/stages/a.yaml': stages,
    }
    return cover(inputOf(files, asOf)).data.blocks.find(({ block }) => block === 'upper')!
  }
  const calm = Array.from({ length: 27 }, (): DayOf => ({}))

  test('lasts for the days that the product protects, then there is a gap', () => {
    const { days, gaps, sprays: found } = coverOf(calm)
    expect(found).toMatchObject([{ until: '2026-06-11', reason: 'protection over' }])
    const on = (date: string) => days.find((day) => day.date === date)!
    expect(on('2026-06-01')).toMatchObject({ covered: true, by: 'sulphur', daysLeft: 10 })
    expect(on('2026-06-11')).toMatchObject({ covered: true, daysLeft: 0 })
    expect(on('2026-06-12')).toMatchObject({ covered: false, by: null })
    expect(gaps.at(-1)).toMatchObject({
      from: '2026-06-12',
      to: '2026-06-20',
      days: 9,
      worstIndex: 0,
      risk: 'low',
    })
  })
  test('25 mm take it off and 24.9 mm do not', () => {
    const rain = (mm: number) => calm.map((day, at) => (at === 10 ? { ...day, rain: mm } : day))
    expect(coverOf(rain(24.9)).sprays).toMatchObject([{ until: '2026-06-11' }])
    expect(coverOf(rain(25)).sprays).toMatchObject([{ until: '2026-06-03', reason: 'washed off' }])
    expect(coverOf(rain(25)).days.find(({ date }) => date === '2026-06-04')!.rainSince).toBe(25)
  })
  test('a high index shortens the interval', () => {
    const warm = calm.map(() => ({ warm: 8 }))
    expect(coverOf(warm).sprays).toMatchObject([{ until: '2026-06-08', reason: 'interval' }])
  })
  test('an index that rises later ends cover from then on, and not before', () => {
    // The index reaches 60 on 10 June, nine days after the spray, where the interval becomes 7.
    const warm = calm.map((_, at) => ({ warm: at >= 14 ? 8 : 0 }))
    const { sprays: found } = coverOf(warm)
    expect(found).toMatchObject([{ until: '2026-06-10', reason: 'interval' }])
    const before = coverOf(warm, '2026-06-09').days.at(-1)
    expect(before).toMatchObject({ date: '2026-06-09', covered: true })
  })
  test('rows sprayed one day and the next cover the block together; by share they may not', () => {
    const by = (first: string, second: string) =>
      coverOf(
        calm,
        '2026-06-20',
        sprays.replace('water:', `${first}, water:`) +
          sprays.replace('2026-06-01', '2026-06-02').replace('water:', `${second}, water:`),
      )
    const rows = by('rows: 1-10', 'rows: 11-20')
    const on = (all: typeof rows, date: string) => all.days.find((day) => day.date === date)!
    expect(on(rows, '2026-06-01')).toMatchObject({ covered: false, share: 0.5 })
    expect(on(rows, '2026-06-02')).toMatchObject({ covered: true, by: 'sulphur', daysLeft: 9 })
    expect(on(rows, '2026-06-12')).toMatchObject({ covered: false, share: 0.5 })
    expect(rows.gaps.at(-1)).toMatchObject({
      from: '2026-06-12',
      after: { product: 'sulphur', date: '2026-06-01', reason: 'protection over' },
      parts: [{ date: '2026-06-02', rows: { from: 11, to: 20 } }],
    })
    const shares = by('share: 50 %', 'share: 50 %')
    expect(on(shares, '2026-06-02')).toMatchObject({ covered: null, by: null })
    expect(on(shares, '2026-06-02').why).toContain('lie over one another')
  })
  test('a biological product at a high index keeps the days of the band below, and is said not to be advised', () => {
    const gentle =
      'name: Gentle\nform: SP\nkind: fungicide\nactives: [ { name: testbacillus, content: 990 g/kg, group: BM02 } ]\nprotects: 10 d\nuses: [ { against: powdery, rate: 2-6 kg/ha, interval: 5-10 d } ]\n'
    const of = (days: readonly DayOf[]) =>
      coverOf(days, '2026-06-20', sprays.replace('sulphur', 'gentle'), { 'products/gentle.yaml': gentle })
    expect(of(calm.map(() => ({ warm: 8 }))).sprays).toMatchObject([
      { until: '2026-06-08', notAdvised: '2026-06-01', reason: 'interval' },
    ])
    expect(of(calm).sprays).toMatchObject([{ notAdvised: null }])
  })
  test('missing rain leaves it unknown, never covered', () => {
    const none = Array.from({ length: 24 }, (_, hour) => hour)
    const { days } = coverOf(calm.map((day, at) => (at === 10 ? { drop: none } : day)))
    const on = (date: string) => days.find((day) => day.date === date)!
    expect(on('2026-06-03').covered).toBe(true)
    expect(on('2026-06-05')).toMatchObject({ covered: null, rainSince: null })
    expect(on('2026-06-12').covered).toBe(false)
  })
  test('a part of a block sprayed does not cover the block', () => {
    const part = sprays.replace('water:', 'rows: 1-4, water:')
    expect(coverOf(calm, '2026-06-20', part).days.every(({ covered }) => covered !== true)).toBe(true)
  })
  test('rows of a block that does not say how many it has leave its cover unknown, never whole', () => {
    const block =
      'name: Upper\nvariety: palava\narea: 0.4 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\ncanopy: { height: 1.2 m }\n'
    const part = sprays.replace('water:', 'rows: 1-4, water:')
    const { days } = coverOf(calm, '2026-06-20', part, { 'blocks/upper.yaml': block })
    const on = (date: string) => days.find((day) => day.date === date)!
    expect(days.some(({ covered }) => covered === true)).toBe(false)
    expect(on('2026-06-03').covered).toBeNull()
    expect(on('2026-06-15').covered).toBe(false)
  })
  test('more rain never lengthens cover', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 15 }), { minLength: 20, maxLength: 20 }),
        fc.nat(19),
        fc.integer({ min: 1, max: 30 }),
        (rains, at, more) => {
          const days = (extra: number) =>
            calm.map((day, index) => ({
              ...day,
              rain: (rains[index - 7] ?? 0) + (index - 7 === at ? extra : 0),
            }))
          const covered = (extra: number) =>
            coverOf(days(extra)).days.filter((day) => day.covered === true).length
          expect(covered(more)).toBeLessThanOrEqual(covered(0))
        },
      ),
      { numRuns: 15 },
    )
  })
})

describe('scouting', () => {
  const walk = (date: string, body: string) => `- { date: ${date}, block: upper, ${body} }\n`
  test('incidence with its interval, classes, change beyond chance, threshold', () => {
    const entries =
      walk(
        '2026-06-20',
        'looked_at: { bunches: 100 }, found: { powdery: { bunches: 30, classes: { 0: 70, 0-5: 15, 5-25: 10, 25-50: 3, 50-75: 2 }, rows: 3-5 } }',
      ) +
      walk('2026-07-01', 'looked_at: { bunches: 100 }, found: { powdery: { bunches: 10, severity: 0.5 % } }')
    const { data } = scouting(inputOf({ 'seasons/2026/scouting/a.yaml': entries }, '2026-07-02'))
    const [first, second] = data.walks
    expect(first).toMatchObject({
      looked: 100,
      found: 30,
      incidence: 0.3,
      organ: 'bunches',
      rows: { from: 3, to: 5 },
    })
    // Wilson, and the means of class midpoints: references/disease.md S29 and S27.
    expect(first!.low).toBeCloseTo(0.2189, 4)
    expect(first!.high).toBeCloseTo(0.3958, 4)
    expect(first!.severity).toBeCloseTo(0.0425, 10)
    expect(first!.severityAffected).toBeCloseTo(0.141667, 6)
    expect(second!.low).toBeCloseTo(0.0552, 4)
    expect(second!.severityAffected).toBeCloseTo(0.05, 10)
    expect(data.trends).toMatchObject([{ from: '2026-06-20', to: '2026-07-01', beyondChance: true }])
    expect(data.trends[0]!.change).toBeCloseTo(-0.2, 12)
    expect(data.states).toMatchObject([{ verdict: 'over', threshold: { share: 0.03 }, daysSince: 1 }])
    expect(data.detection).toEqual({ share: 0.03, units: 99 })
    expect(data.maps).toMatchObject([{ rows: 20, from: 3, to: 5 }])
  })
  test('severity is of each organ that was scored', () => {
    const entries = walk(
      '2026-07-20',
      'looked_at: { bunches: 100, leaves: 50 }, found: { powdery: { bunches: 10, leaves: 5, severity: 1 %, scored: { leaves: { classes: { 0: 45, 0-10: 5 } } } }, downy: { bunches: 2, leaves: 4, severity: 0.4 % } }',
    )
    const { walks } = scouting(inputOf({ 'seasons/2026/scouting/a.yaml': entries }, '2026-07-20')).data
    const of = (disease: string, organ: string) =>
      walks.find((row) => row.disease === disease && row.organ === organ)!
    expect(of('powdery', 'bunches')).toMatchObject({ severity: 0.01, severityAffected: 0.1, why: null })
    expect(of('powdery', 'leaves').severity).toBeCloseTo(0.005, 12)
    expect(of('powdery', 'leaves').severityAffected).toBeCloseTo(0.05, 12)
    expect(of('downy', 'bunches')).toMatchObject({ severity: 0.004 })
    expect(of('downy', 'leaves')).toMatchObject({ severity: null, why: 'severity was not scored' })
  })
  test('scores of an organ that was not looked at, and classes that do not add up, are told', () => {
    const findingsOf = (found: string) => {
      const { ledger } = inputOf(
        {
          'seasons/2026/scouting/a.yaml': walk(
            '2026-07-20',
            `looked_at: { bunches: 100, leaves: 50 }, ${found}`,
          ),
        },
        '2026-07-20',
      )
      return [
        ...ledger.findings,
        ...unlikelyWalk.check({ ledger, asOf: '2026-07-20', seasons: new Set([2026]) }),
      ]
    }
    const shoots = findingsOf('found: { powdery: { bunches: 1, scored: { shoots: { severity: 2 % } } } }')
    expect(shoots).toMatchObject([
      { name: 'more-than-looked-at', message: 'no shoots are among those looked at' },
    ])
    const classes = findingsOf(
      'found: { powdery: { leaves: 5, scored: { leaves: { classes: { 0: 95, 0-10: 5 } } } } }',
    )
    expect(classes).toMatchObject([{ name: 'unlikely-walk', message: expect.stringContaining('50') }])
    const much = findingsOf(
      'found: { powdery: { bunches: 90, leaves: 5, scored: { leaves: { severity: 20 % } } } }',
    )
    expect(much).toMatchObject([{ name: 'unlikely-walk', message: expect.stringContaining('10 %') }])
  })
  test('walks after the day asked for are left out, and a small change is chance', () => {
    const entries =
      walk('2026-06-20', 'looked_at: { leaves: 50 }, found: { downy: { leaves: 2 } }') +
      walk('2026-07-01', 'looked_at: { leaves: 50 }, found: { downy: { leaves: 4 } }')
    const files = { 'seasons/2026/scouting/a.yaml': entries }
    expect(scouting(inputOf(files, '2026-06-30')).data.walks).toHaveLength(1)
    expect(scouting(inputOf(files, '2026-07-01')).data.trends).toMatchObject([{ beyondChance: false }])
    expect(scouting(inputOf(files, '2026-07-01')).data.states).toMatchObject([{ verdict: 'no threshold' }])
  })
  test('the first finding, and what was sprayed against it before the walk after', () => {
    const files = {
      'seasons/2026/scouting/a.yaml':
        walk(
          '2026-06-10',
          'looked_at: { leaves: 50 }, found: { powdery: { leaves: 0 }, downy: { leaves: 0 } }',
        ) +
        walk('2026-06-20', 'looked_at: { leaves: 50 }, found: { powdery: { leaves: 9 } }') +
        walk('2026-07-01', 'looked_at: { leaves: 50 }, found: { powdery: { leaves: 1 } }'),
      'seasons/2026/sprays.yaml': [
        '- { date: 2026-06-15, blocks: [upper], products: [ { product: copper, rate: 1 kg/ha, for: downy } ] }',
        '- { date: 2026-06-20, blocks: [upper], rows: 3-5, products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }',
        '- { date: 2026-06-22, blocks: [lower], products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }',
        '- { date: 2026-07-01, blocks: [upper], products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }',
      ].join('\n'),
    }
    const { firsts, trends } = scouting(inputOf(files, '2026-07-02')).data
    expect(firsts).toMatchObject([{ disease: 'powdery', date: '2026-06-20', found: 9 }])
    expect(trends.map(({ sprays }) => sprays)).toEqual([
      [],
      [{ date: '2026-06-20', product: 'sulphur', rows: { from: 3, to: 5 } }],
    ])
  })
})

describe('heat', () => {
  test('an index whose window is not covered is null and says why; beyond 50° Huglin is an extension only', () => {
    const files = {
      'seasons/2026/weather.csv': weatherText(
        '2026-04-01',
        Array.from({ length: 214 }, () => ({ warm: 8 })),
      ),
    }
    const part = heat(inputOf(files, '2026-06-30')).data
    expect(part.winkler).toMatchObject({ value: null, region: null, days: 91, missing: 123 })
    expect(part.winkler.why).toContain('91 of 214 days')
    expect(part.to).toBe('2026-06-30')
    const whole = heat(inputOf(files, '2026-10-31')).data
    expect(whole.winkler.value).toBe(214 * 10)
    expect(whole.huglin).toMatchObject({ value: null, class: null })
    expect(whole.huglin.extension).toBeCloseTo(183 * 12.5 * 1.06, 6)
    expect(whole.huglin.why).toContain('50°')
  })
  test('in the southern hemisphere the season runs over the new year', () => {
    const files = {
      'vineyard.yaml': 'name: South\nlatitude: -45\ntimezone: Pacific/Auckland\n',
      'seasons/2026/weather.csv': weatherText(
        '2025-10-01',
        Array.from({ length: 212 }, () => ({ warm: 8 })),
      ),
    }
    const { winkler, huglin, coolNights } = heat(inputOf(files, '2026-05-01')).data
    expect([winkler.from, winkler.to, huglin.to, coolNights.from]).toEqual([
      '2025-10-01',
      '2026-04-30',
      '2026-03-31',
      '2026-03-01',
    ])
    expect(huglin.value).toBeCloseTo(182 * 12.5 * 1.04, 6)
  })
})

test('limits of downy primary infection can be changed, and the rule says so', () => {
  const path = join(mkdtempSync(join(tmpdir(), 'rowbook-limits-')), 'w.csv')
  const day = (date: string, rain: number) =>
    Array.from({ length: 24 }, (_, hour) => `${date}T${String(hour).padStart(2, '0')}:00,15,${rain}`)
  const lines = ['time,temperature_c,rain_mm', ...day('2026-05-31', 0), ...day('2026-06-01', 0.25)]
  writeFileSync(path, `${lines.join('\n')}\n`)
  const of = (limits?: { rain: number }) =>
    pressureOfFile(weatherOfFile(readWeatherFile(path)), { asOf: '2026-12-31', limits }).data
  expect(of().days.at(-1)?.downy.primary).toBe(false)
  const changed = of({ rain: 6 })
  expect(changed.days.at(-1)?.downy.primary).toBe(true)
  expect(changed.rules.find(({ index }) => index === 'downy')?.rule).toContain(
    '6 mm in any 24 h with no hour below 10 °C, your limits',
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
      why: expect.stringContaining('begin on Wed 1 Apr'),
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
    expect(rule()).toContain('6 mm in any 24 h with no hour below 9 °C, your limits')
    expect(rule({ rain: 8 })).toContain('8 mm in any 24 h with no hour below 9 °C, your limits')
  })
})
