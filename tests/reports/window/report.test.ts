import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type WindowOptions, windowOf } from '../../../src/facts/window/block-window.ts'
import { windowText } from '../../../src/facts/window/sentences.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { addDays, dayOf, daysBetween, isoDate } from '../../../src/records/date.ts'
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
  test('keeps the contract: a chance that rises, dates at its 5, 50 and 95 %, what it used, what comes next', () => {
    const block = ask({ [`${S}/stages.yaml`]: STAGE }).blocks[0]!
    expect(block).toMatchObject({ block: 'upper', target: 20, legalFrom: null, conflicts: [], open: false })
    expect(block).not.toHaveProperty('methods')
    const dateAt = (wanted: number) => block.chance.find(({ share }) => share >= wanted)!.date
    expect([block.earliest, block.likely, block.latest]).toEqual([dateAt(0.05), dateAt(0.5), dateAt(0.95)])
    block.chance.forEach(({ date, share }, at) => {
      expect(date).toMatch(ISO)
      expect(share).toBeGreaterThanOrEqual(block.chance[at - 1]?.share ?? 0)
    })
    expect(block.chance.at(-1)!.date).toBe(addDays('2026-09-10', 60))
    expect(block.uses).toEqual(['samples', 'berries'])
    expect(block.next_sample!.date >= '2026-09-10').toBe(true)
    expect(block.next_sample!.narrows_days).toBeGreaterThan(0)
    expect(block.why).toBeNull()
  })

  test('answers from veraison on, before the first sample', () => {
    const early = ask({ [`${S}/stages.yaml`]: STAGE, [`${S}/samples.yaml`]: null }, { asOf: '2026-08-10' })
      .blocks[0]!
    expect(early.uses).toEqual(['veraison'])
    expect(early.likely! > '2026-09-10' && early.likely! < '2026-10-10').toBe(true)
  })

  test('a sample outweighs veraison noted only after it, and both are to be checked', () => {
    const ripe = '- { date: 2026-08-29, block: upper, berries: 100, brix: 20.2 }\n'
    const at = (stage: string | null) =>
      ask({ [`${S}/samples.yaml`]: ripe, [`${S}/stages.yaml`]: stage }, { asOf: '2026-09-14' }).blocks[0]!
    const late = at('- { date: 2026-09-01, block: upper, stage: 83 }\n')
    const bare = at(null)
    expect([late.earliest, late.likely, late.latest]).toEqual([bare.earliest, bare.likely, bare.latest])
    expect(late.likely! < '2026-09-05').toBe(true)
    expect(late).toMatchObject({ uses: ['samples', 'berries'], veraison: null })
    expect(late.conflicts.join()).toContain(
      '20.2 Brix on 29 Aug is riper than 50 % veraison, noted for about 1 Sep',
    )
    const before = at('- { date: 2026-08-05, block: upper, stage: 83 }\n')
    expect(before.uses).toContain('veraison')
    expect(before.conflicts).toEqual([])
  })

  test('from the calendar alone: vague, open, and only in `window`', () => {
    const files = { [`${S}/samples.yaml`]: null }
    const spring = ask(files, { asOf: '2026-05-10' }).blocks[0]!
    expect(spring).toMatchObject({ earliest: null, likely: null, latest: null, open: false, chance: [] })
    expect(spring.why).toMatch(/^no sample with sugar yet; 50 % veraison is expected from .+ to .+$/)
    // A low target may be reached on the expected day itself, which in spring lies months ahead.
    expect(ask(files, { asOf: '2026-05-10', target: 9 }).blocks[0]).toMatchObject({
      earliest: null,
      next_sample: null,
      chance: [],
    })
    const summer = ask(files, { asOf: '2026-08-20' }).blocks[0]!
    expect(summer).toMatchObject({ uses: ['usual-bloom'], why: null, open: true })
    expect(summer.next_sample!.narrows_days).toBeGreaterThan(10)
    const ledger = openLedger(makeLedger(files), { seasons: 'all' })
    const input = { ledger, season: 2026, asOf: '2026-08-20' }
    const elsewhere = windowOf(ledger.blocks.get('upper')!, input)
    expect(elsewhere).toMatchObject({ earliest: null, likely: null, chance: [] })
    expect(elsewhere.why).toBe('no sample with sugar yet, and veraison is not noted')
  })

  test('from flowering alone: from the day on which veraison may be, wider than from veraison', () => {
    const flowering = '- { date: 2026-06-10, block: upper, stage: 65 }\n'
    const files = { [`${S}/samples.yaml`]: null, [`${S}/stages.yaml`]: flowering }
    const [before, soon] = ['2026-06-20', '2026-08-20'].map((asOf) => ask(files, { asOf }).blocks[0]!)
    // 10 June and 45 to 75 days: 25 July to 24 August.
    expect(before).toMatchObject({ earliest: null, chance: [] })
    const between = ask(files, { asOf: '2026-07-23' }).blocks[0]!
    expect(between).toMatchObject({ earliest: soon!.earliest, lastSprays: null })
    // Before veraison a sample says little of when sugar will be there.
    expect(between.next_sample!.date).toBe('2026-08-09')
    expect(before!.why).toBe('no sample with sugar yet; 50 % veraison is expected from 25 Jul to 24 Aug')
    expect(soon).toMatchObject({ uses: ['flowering'], veraison: null, why: null })
    expect(soon!.earliest! > '2026-08-20' && soon!.earliest! < soon!.likely!).toBe(true)
    expect(windowText(soon!)).toMatch(/it may not get there within 60 days$/)
    const at = { date: '2026-08-09', block: 'upper', stage: 83, share: '50 %' }
    const noted = ask(
      { ...files, [`${S}/stages.yaml`]: `${flowering}- ${JSON.stringify(at)}\n` },
      { asOf: '2026-08-20' },
    ).blocks[0]!
    expect(noted.uses).toEqual(['veraison'])
    expect(noted.earliest! > soon!.earliest!).toBe(true)
    const sampled = ask({ [`${S}/stages.yaml`]: flowering }).blocks[0]!
    expect(sampled).toEqual(ask({}).blocks[0])
  })

  test('from past seasons alone: as vague as their dates are from year to year', () => {
    const past = [2024, 2025]
      .map((year) => `- { date: ${year}-08-05, block: upper, stage: 83, share: 50 % }\n`)
      .join('')
    const files = {
      [`${S}/samples.yaml`]: null,
      'seasons/2025/samples.yaml': SAMPLES.replaceAll('2026', '2025'),
      'seasons/2025/stages.yaml': past.split('\n')[1]!,
      'seasons/2024/samples.yaml': SAMPLES.replaceAll('2026', '2024'),
      'seasons/2024/stages.yaml': past.split('\n')[0]!,
    }
    const block = ask(files, { asOf: '2026-08-20' }).blocks[0]!
    expect(block).toMatchObject({ uses: ['past-dates', 'past-seasons'], veraison: null })
    // They reached it about 12 September.
    expect(block.earliest! < '2026-09-12' && block.likely! > '2026-09-05').toBe(true)
    expect(block.latest === null || block.latest > '2026-10-01').toBe(true)
  })

  test('of all that can be recorded next, a sample narrows most', () => {
    const width = (files: Record<string, string | null>) => {
      const { earliest, latest } = ask(files, { asOf: '2026-08-20' }).blocks[0]!
      return daysBetween(earliest!, latest ?? addDays('2026-08-20', 60))
    }
    const none = { [`${S}/samples.yaml`]: null }
    const stages = (entry: string) => ({ ...none, [`${S}/stages.yaml`]: entry })
    const others = [
      stages('- { date: 2026-06-10, block: upper, stage: 65 }\n'),
      stages(STAGE),
      { ...none, [`${S}/weather.csv`]: weather(2026, 0, '2026-08-20') },
    ].map(width)
    const sample = '- { date: 2026-08-20, block: upper, berries: 100, brix: 13 }\n'
    const sampled = width({ [`${S}/samples.yaml`]: sample })
    for (const other of [...others, width(none)]) expect(sampled).toBeLessThan(other)
  })

  test('a sample at or near the target leads', () => {
    const near = '- { date: 2026-09-09, block: upper, berries: 100, brix: 19.9 }\n'
    const block = ask({ [`${S}/samples.yaml`]: near, [`${S}/stages.yaml`]: STAGE }).blocks[0]!
    expect(block.likely! <= '2026-09-12').toBe(true)
    expect(block.today).toBeGreaterThan(0.3)
    expect(windowText(block)).toMatch(/^may reach 20 Brix any day/)
  })

  test('an end that does not come is open, and is said as open', () => {
    const slow = [14, 14.4, 14.7, 15]
      .map((brix, week) => `- { date: ${addDays('2026-08-18', 7 * week)}, block: upper, brix: ${brix} }\n`)
      .join('')
    const block = ask({ [`${S}/samples.yaml`]: slow }).blocks[0]!
    expect(block).toMatchObject({ latest: null, open: true })
    expect(windowText(block)).toMatch(/may not get there|unlikely to reach/)
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
    expect(block.conflicts.join(' ')).toMatch(/Test sulphur \(sprayed Sat 5 Sep\) allows picking only from/)
  })

  test('a season whose samples already passed the target gives a day in the past', () => {
    const block = ask({}, { target: 17 }).blocks[0]!
    expect(block.likely! < '2026-09-08').toBe(true)
    expect(block.likely! > '2026-08-20').toBe(true)
  })

  test('a target that the samples put far off gets no date', () => {
    const block = ask({ [`${S}/stages.yaml`]: STAGE }, { target: 39 }).blocks[0]!
    expect(block).toMatchObject({ earliest: null, likely: null, latest: null, open: true })
    expect(windowText(block)).toBe('is unlikely to reach 39 Brix within 60 days')
  })

  test('a higher target never comes earlier', () => {
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
        }
      }),
      { numRuns: 40 },
    )
  }, 30_000)

  test('weather so far and a forecast are used, and said; a warm week ahead never puts the day off', () => {
    const files = { [`${S}/weather.csv`]: weather(2026, 0, '2026-09-09') }
    const forecast = (celsius: number) =>
      new Map(Array.from({ length: 10 }, (_, index) => [dayOf('2026-09-10') + index, celsius] as const))
    expect(ask(files).blocks[0]!.uses).toContain('weather')
    const warm = ask(files, { forecast: forecast(24) }).blocks[0]!
    const cold = ask(files, { forecast: forecast(5) }).blocks[0]!
    expect(warm.uses).toContain('forecast')
    expect(warm.earliest! <= cold.earliest! && warm.likely! <= cold.likely!).toBe(true)
    const sumOf = (block: typeof warm) => block.chance.reduce((sum, { share }) => sum + share, 0)
    expect(sumOf(warm)).toBeGreaterThan(sumOf(cold) + 0.1)
  })

  test('past seasons of the block narrow it and are named; those of its variety only where it has none', () => {
    const year = (one: number, block: string) =>
      [11, 12.4, 13.8, 15.2, 16.6, 18]
        .map(
          (brix, week) =>
            `- { date: ${addDays(`${one}-08-10`, 7 * week)}, block: ${block}, brix: ${brix} }\n`,
        )
        .join('')
    const two = SAMPLES.split('\n').slice(0, 2).join('\n')
    const files = { [`${S}/samples.yaml`]: `${two}\n` }
    const days = (from: Record<string, string>) => {
      const block = ask({ ...files, ...from }).blocks[0]!
      return { block, width: dayOf(block.latest!) - dayOf(block.earliest!) }
    }
    const plain = days({})
    const own = days({
      'seasons/2024/samples.yaml': year(2024, 'upper'),
      'seasons/2025/samples.yaml': year(2025, 'upper'),
    })
    expect(own.width).toBeLessThan(plain.width)
    expect(own.block).toMatchObject({ learnedFrom: [2025, 2024] })
    expect(own.block.uses).toContain('past-seasons')
    expect(own.block.past.map(({ season }) => season)).toEqual([])
  })

  test('acid and pH come into their ranges, where three days of measuring tell', () => {
    const rows = (days: number) =>
      [12.8, 11.6, 10.6, 9.9]
        .slice(0, days)
        .map(
          (ta, week) =>
            `- { date: ${addDays('2026-08-18', 7 * week)}, block: upper, brix: ${15 + week}, ta: ${ta} g/L, ph: ${(2.9 + 0.06 * week).toFixed(2)} }\n`,
        )
        .join('')
    const { acid, ph } = ask({ [`${S}/samples.yaml`]: rows(4) }).blocks[0]!
    expect(acid!.likely! > '2026-09-08' && acid!.likely! < '2026-10-05').toBe(true)
    expect(acid!.earliest! <= acid!.likely!).toBe(true)
    expect(ph!.likely! >= '2026-08-28' && ph!.likely! < '2026-09-20').toBe(true)
    expect(ask({ [`${S}/samples.yaml`]: rows(2) }).blocks[0]!).toMatchObject({ acid: null, ph: null })
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
    expect(said.rows.map(({ lead }) => lead)).toEqual([28, 21, 14, 7])
    const later = openLedger(makeLedger({ ...files, [`${S}/samples.yaml`]: SAMPLES }), { seasons: 'all' })
    expect(backtest({ ledger: later, season: 2026, asOf: '2026-09-10', blocks }).rows).toEqual(said.rows)
    const week = said.rows.find(({ lead }) => lead === 7)!
    expect(week.inside).toBe(true)
    expect(Math.abs(week.error!)).toBeLessThanOrEqual(3)
    const sum = said.summary.find(({ lead }) => lead === 7)!
    expect(sum).toMatchObject({ asked: 1, told: 1, meanError: week.error, coverage: 1 })
  })
})
