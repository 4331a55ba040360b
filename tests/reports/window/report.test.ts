import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { WindowOptions } from '../../../src/facts/window/block-window.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { addDays, dayOf, isoDate } from '../../../src/records/date.ts'
import { backtest } from '../../../src/reports/window/backtest.ts'
import { window } from '../../../src/reports/window/report.ts'
import { makeLedger } from '../../ledger/make.ts'

const S = 'seasons/2026'

/** Weekly samples of `upper` that end on 8 September, at 0.2 °Brix a day. */
const SAMPLES = [15.1, 16.4, 17.9, 19.2]
  .map(
    (brix, week) =>
      `- { date: ${addDays('2026-08-18', 7 * week)}, block: upper, berries: 100, brix: ${brix} }\n`,
  )
  .join('')

const STAGE = '- { date: 2026-08-05, block: upper, stage: 83, share: 50 % }\n'

/** Daily weather of a season: 15 °C and a seasonal wave, shifted by so much. */
function weather(year: number, shift = 0, last = `${year}-10-31`): string {
  const rows = ['date,min_c,max_c,rain_mm']
  for (let day = dayOf(`${year}-03-01`); day <= dayOf(last); day++) {
    const mean = 15 + shift + 6 * Math.cos(((day - dayOf(`${year}-07-25`)) / 365) * 2 * Math.PI)
    rows.push(`${isoDate(day)},${(mean - 5).toFixed(1)},${(mean + 5).toFixed(1)},0`)
  }
  return `${rows.join('\n')}\n`
}

function ask(
  files: Record<string, string | null>,
  options: WindowOptions & { asOf?: string; backtest?: boolean } = {},
) {
  const { asOf = '2026-09-10', ...rest } = options
  const ledger = openLedger(makeLedger({ [`${S}/samples.yaml`]: SAMPLES, ...files }), { seasons: 'all' })
  expect(ledger.findings.filter(({ level }) => level === 'error')).toEqual([])
  const blocks = [ledger.blocks.get('upper')!]
  return window({ ledger, season: 2026, asOf, blocks }, rest).data
}

const ISO = /^\d{4}-\d{2}-\d{2}$/

describe('window', () => {
  test('keeps the contract: three methods in order, dates in order, nulls with a reason', () => {
    const block = ask({ [`${S}/stages.yaml`]: STAGE }).blocks[0]!
    expect(block).toMatchObject({ block: 'upper', target: 20, legalFrom: null, conflicts: [] })
    expect(block.methods.map(({ method }) => method)).toEqual([
      'sugar-trend',
      'heat-sum',
      'days-after-veraison',
    ])
    for (const { earliest, likely, latest, why } of [...block.methods, block]) {
      if (likely === null) expect([earliest, latest]).toEqual([null, null])
      else {
        expect(likely).toMatch(ISO)
        expect(earliest! <= likely && likely <= latest!).toBe(true)
      }
      if (why !== null) expect(why.length).toBeGreaterThan(10)
    }
    expect(block.methods[1]).toMatchObject({ likely: null, why: expect.stringMatching(/no weather/) })
    expect(block.methods.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9)
  })

  test('two sampling days are never enough for the trend', () => {
    const two = SAMPLES.split('\n').slice(0, 2).join('\n')
    const trend = ask({ [`${S}/samples.yaml`]: `${two}\n` }).blocks[0]!.methods[0]!
    expect(trend).toMatchObject({ earliest: null, likely: null, latest: null })
    expect(trend.why).toMatch(/three days/)
  })

  test('samples and sprays after the day are not known yet', () => {
    const early = ask({}, { asOf: '2026-09-02' }).blocks[0]!
    const cut = SAMPLES.split('\n').slice(0, 3).join('\n')
    expect(early).toEqual(ask({ [`${S}/samples.yaml`]: `${cut}\n` }, { asOf: '2026-09-02' }).blocks[0])
  })

  test('held back by days before harvest, and says so', () => {
    const spray =
      '- { date: 2026-09-05, time: 18:00-19:00, blocks: [upper], water: 300 L/ha, products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }\n'
    const block = ask({ [`${S}/sprays.yaml`]: spray }).blocks[0]!
    expect(block).toMatchObject({ legalFrom: '2026-09-27', legalFromCalendar: '2026-09-26' })
    expect(block.conflicts.join(' ')).toMatch(
      /before sulphur, sprayed Sat 5 Sep, allows picking from Sun 27 Sep/,
    )
  })

  test('a season whose samples already passed the target gives a day in the past', () => {
    const block = ask({}, { target: 17 }).blocks[0]!
    expect(block.likely! < '2026-09-08').toBe(true)
    expect(block.likely! > '2026-08-20').toBe(true)
  })

  test('a target that the samples put far off gets no date from the calendar alone', () => {
    const block = ask({ [`${S}/stages.yaml`]: STAGE }, { target: 39 }).blocks[0]!
    expect(block).toMatchObject({ earliest: null, likely: null, latest: null })
    expect(block.conflicts.join(' ')).toMatch(/39 Brix/)
  })

  test('a higher target never comes earlier, by any method or all of them', () => {
    const files = {
      [`${S}/stages.yaml`]: STAGE,
      [`${S}/weather.csv`]: weather(2026, 0, '2026-09-09'),
      'seasons/2025/weather.csv': weather(2025, 0.5),
      'seasons/2024/weather.csv': weather(2024, -0.5),
      'varieties/palava.yaml':
        'name: Palava\ncolour: white\ntargets: { brix: 19-21 }\nafter_veraison: 35-55 d\nheat: { sugar: { 130: 2300, 160: 2550, 190: 2750, 210: 2880, 230: 3000 } }\n',
    }
    const ledger = openLedger(makeLedger({ [`${S}/samples.yaml`]: SAMPLES, ...files }), { seasons: 'all' })
    const at = (target: number) =>
      window({ ledger, season: 2026, asOf: '2026-09-10', blocks: [ledger.blocks.get('upper')!] }, { target })
        .data.blocks[0]!
    fc.assert(
      fc.property(fc.integer({ min: 160, max: 230 }), fc.integer({ min: 1, max: 30 }), (tenths, more) => {
        const [low, high] = [at(tenths / 10), at((tenths + more) / 10)]
        for (const key of ['earliest', 'likely', 'latest'] as const) {
          if (low[key] !== null && high[key] !== null) expect(high[key]! >= low[key]!).toBe(true)
          low.methods.forEach((method, index) => {
            const above = high.methods[index]![key]
            if (method[key] !== null && above !== null) expect(above >= method[key]).toBe(true)
          })
        }
      }),
      { numRuns: 40 },
    )
  }, 30_000)

  describe('heat-sum', () => {
    const season = { [`${S}/weather.csv`]: weather(2026, 0, '2026-09-09') }
    const past = {
      'seasons/2025/weather.csv': weather(2025, 0.5),
      'seasons/2024/weather.csv': weather(2024, -0.5),
    }
    const ownPast = [2024, 2025].map((year) => [
      `seasons/${year}/samples.yaml`,
      `- { date: ${year}-09-10, block: upper, brix: 19 }\n- { date: ${year}-09-20, block: upper, brix: 21 }\n`,
    ])

    test('own past seasons come before the variety, and are named', () => {
      const method = ask({ ...season, ...past, ...Object.fromEntries(ownPast) }).blocks[0]!.methods[1]!
      expect(method.why).toMatch(/own past \(2025: \d+, 2024: \d+\)/)
      expect(method.likely! >= '2026-09-12' && method.likely! <= '2026-09-18').toBe(true)
      expect(method.earliest! < method.likely!).toBe(true)
    })

    test('the chart runs from the sum so far to the requirement, by the coolest and warmest season', () => {
      const block = ask({ ...season, ...past, ...Object.fromEntries(ownPast) }).blocks[0]!
      const { panels, window: span } = block.heatChart!
      const { points, limit, trend } = panels[0]!
      expect(limit).toBe(block.heat.needed)
      expect(points.at(-1)!).toMatchObject({ date: '2026-09-09', value: block.heat.sum })
      expect(points.every(({ value }, at) => at === 0 || value >= points[at - 1]!.value)).toBe(true)
      expect(trend!.points[0]).toEqual({
        date: '2026-09-09',
        value: points.at(-1)!.value,
        low: points.at(-1)!.value,
        high: points.at(-1)!.value,
      })
      const end = trend!.points.at(-1)!
      expect(end.low! < end.value && end.value < end.high! && end.value > limit!).toBe(true)
      // The season 2025 was 1 °C warmer than 2024 on every day.
      const days = dayOf(end.date) - dayOf('2026-09-09')
      expect(end.high! - end.low!).toBeCloseTo(days, 0)
      expect(span!.likely).toBe(block.methods[1]!.likely)
      expect(ask({}).blocks[0]!.heatChart).toBeNull()
    })

    test('one earlier year gives a day but no interval', () => {
      const files = {
        ...season,
        'seasons/2025/weather.csv': weather(2025),
        ...Object.fromEntries([ownPast[1]!]),
      }
      const method = ask(files).blocks[0]!.methods[1]!
      expect(method.likely).not.toBeNull()
      expect(method).toMatchObject({ earliest: null, latest: null })
      expect(method.why).toMatch(/two are needed/)
    })

    test('a warmer forecast brings it forward', () => {
      const files = { ...season, ...past, ...Object.fromEntries(ownPast) }
      const forecast = (celsius: number) =>
        new Map(Array.from({ length: 10 }, (_, index) => [dayOf('2026-09-10') + index, celsius] as const))
      const warm = ask(files, { forecast: forecast(24) }).blocks[0]!.methods[1]!.likely!
      const cold = ask(files, { forecast: forecast(8) }).blocks[0]!.methods[1]!.likely!
      expect(warm < cold).toBe(true)
    })

    test('without a requirement it says what is missing', () => {
      expect(ask({ ...season, ...past }).blocks[0]!.methods[1]!.why).toMatch(/no `heat: sugar`/)
    })
  })

  test('backtest uses only what was known: what came later changes nothing', () => {
    const year = 2025
    const rows = [14, 15.6, 17.1, 18.4, 19.8]
      .map((brix, week) => `- { date: ${addDays(`${year}-08-10`, 7 * week)}, block: upper, brix: ${brix} }\n`)
      .join('')
    const files = {
      [`seasons/${year}/samples.yaml`]: rows,
      [`seasons/${year}/picks.yaml`]: `- { date: ${year}-09-12, block: upper, weight: 3000 kg, brix: 20.4 }\n`,
    }
    const ledger = openLedger(makeLedger(files), { seasons: 'all' })
    const blocks = [ledger.blocks.get('upper')!]
    const said = backtest({ ledger, season: 2026, asOf: '2026-09-10', blocks })
    expect(said.rows.filter(({ method }) => method === 'combined').map(({ lead }) => lead)).toEqual([
      28, 21, 14, 7,
    ])
    const later = openLedger(makeLedger({ ...files, [`${S}/samples.yaml`]: SAMPLES }), { seasons: 'all' })
    expect(backtest({ ledger: later, season: 2026, asOf: '2026-09-10', blocks }).rows).toEqual(said.rows)
    const week = said.rows.find(({ lead, method }) => lead === 7 && method === 'sugar-trend')!
    expect(week.inside).toBe(true)
    expect(Math.abs(week.error!)).toBeLessThanOrEqual(3)
    const sum = said.summary.find(({ lead, method }) => lead === 7 && method === 'sugar-trend')!
    expect(sum).toMatchObject({ asked: 1, told: 1, meanError: week.error, coverage: 1 })
  })
})
