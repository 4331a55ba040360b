import { describe, expect, test } from 'vitest'
import { cropEstimate } from '../../../src/agronomy/crop/crop-estimate.ts'
import { cropTotal } from '../../../src/agronomy/crop/crop-total.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { crop } from '../../../src/reports/crop/report.ts'
import { makeLedger } from '../../ledger/make.ts'

const S = 'seasons/2026'

/** So many readings that swing by `spread` about a mean: their mean is exact, whatever the number is (even). */
const swing = (mean: number, { spread, n }: { spread: number; n: number }) =>
  Array.from({ length: n }, (_, at) => mean + (at % 2 ? spread : -spread))

const counted = (name: string, of: { vines: number; bunches: number[]; grams: number[] }) =>
  `- { date: 2026-09-05, block: upper, part: ${name}, vines: ${of.vines}, bunches_per_vine: [${of.bunches}], bunch_weight: [${of.grams.map((g) => `${g} g`)}], at: harvest }\n`

function upper(files: Record<string, string>, options: Parameters<typeof crop>[1] = {}) {
  const ledger = openLedger(makeLedger(files), { seasons: 'all' })
  expect(ledger.findings.filter(({ level }) => level === 'error')).toEqual([])
  const input = { ledger, season: 2026, asOf: '2026-09-30', blocks: [ledger.blocks.get('upper')!] }
  const { data } = crop(input, options)
  return { block: data.blocks[0]!, total: data.total }
}

const TOP = {
  vines: 1000,
  bunches: swing(20, { spread: 5, n: 10 }),
  grams: swing(120, { spread: 40, n: 10 }),
}
const FOOT = { vines: 500, bunches: swing(15, { spread: 4, n: 8 }), grams: swing(110, { spread: 30, n: 8 }) }

describe('what more to count and weigh', () => {
  test('counted in parts, what is asked for brings the sum within the error', () => {
    const { block } = upper(
      { [`${S}/crop.yaml`]: counted('top', TOP) + counted('foot', FOOT) },
      { error: 0.1 },
    )
    expect(block.toDo.vines).toBeGreaterThan(0)
    expect(block.toDo.bunches).toBeGreaterThan(0)
    const more = (of: typeof TOP, part: { moreVines: number | null; moreBunches: number | null }) => {
      const sd = (values: number[]) => {
        const mean = values.reduce((a, b) => a + b, 0) / values.length
        return Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (values.length - 1))
      }
      const mean = (values: number[]) => values.reduce((a, b) => a + b, 0) / values.length
      return cropEstimate({
        vines: of.vines,
        bunches: { mean: mean(of.bunches), sd: sd(of.bunches), n: of.bunches.length + part.moreVines! },
        weight: {
          mean: mean(of.grams) / 1000,
          sd: sd(of.grams) / 1000,
          n: of.grams.length + part.moreBunches!,
        },
        factor: { value: 1, cv: 0 },
      })
    }
    const estimates = [more(TOP, block.parts[0]!), more(FOOT, block.parts[1]!)]
    const { estimate, high } = cropTotal({ estimates, sharedFactor: true })
    const share = (high! - estimate!) / estimate!
    expect(share).toBeLessThanOrEqual(0.1)
    expect(share).toBeGreaterThan(0.08)
  })

  test('bunches alone, where many vines were counted and few bunches weighed', () => {
    const of = { ...TOP, bunches: swing(20, { spread: 3, n: 60 }), grams: swing(120, { spread: 30, n: 8 }) }
    const { block } = upper({ [`${S}/crop.yaml`]: counted('all', of) }, { error: 0.1 })
    expect(block.toCount).toMatchObject({ needed: null, why: expect.stringMatching(/bunch weight/) })
    expect(block.toWeigh.more).toBeGreaterThan(0)
  })

  test('the default growth factor alone may exceed the error, and that is said', () => {
    const lag = counted('all', TOP).replace('harvest', 'lag')
    const { block } = upper({ [`${S}/crop.yaml`]: lag }, { error: 0.1 })
    expect(block.toDo).toEqual({
      vines: null,
      bunches: null,
      why: 'the growth factor alone exceeds the wanted error',
    })
  })

  test('one vine counted tells no spread', () => {
    const one = counted('all', { vines: 100, bunches: [20], grams: [100] })
    expect(upper({ [`${S}/crop.yaml`]: one }).block.toDo.why).toMatch(/two readings|two vines/)
  })
})

describe('fruit against prunings', () => {
  const book = (of: { pruned: string; rest?: number }) => ({
    [`${S}/crop.yaml`]: counted('all', TOP),
    'seasons/2025/picks.yaml': `- { date: 2025-09-20, block: upper, weight: 3960 kg, rest: ${of.rest ?? 0} % }\n`,
    [`seasons/${of.pruned.startsWith('2025-0') ? 2025 : 2026}/work.yaml`]: `- { date: ${of.pruned}, block: upper, job: pruning, prunings: 400 g }\n`,
  })
  test('a season is paired with the winter after it: 2 kg a vine over 0.4 kg is 5', () => {
    // 20 rows of 100 m at 1 m, less 20 missing: 1980 vines
    const { block } = upper(book({ pruned: '2026-02-10' }))
    expect(block.balance).toHaveLength(1)
    expect(block.balance[0]).toMatchObject({
      ...{ season: 2025, pruned: '2026-02-10' },
      fruit: { value: expect.closeTo(2, 9), unit: 'kg' },
      prunings: { value: 0.4, unit: 'kg' },
      pruningsPerMetre: { value: expect.closeTo(0.4, 9), unit: 'kg/m' },
      cropLoad: expect.closeTo(5, 9),
    })
  })
  test('never with the winter before it, nor where fruit was left hanging', () => {
    expect(upper(book({ pruned: '2025-02-10' })).block.balance).toEqual([])
    expect(upper(book({ pruned: '2026-02-10', rest: 20 })).block.balance).toEqual([])
  })
})

describe('the crop chart', () => {
  test('is in the data, each block with its interval', () => {
    const ledger = openLedger(makeLedger({ [`${S}/crop.yaml`]: counted('all', TOP) }), { seasons: 'all' })
    const blocks = [...ledger.blocks.values()]
    const { data } = crop({ ledger, season: 2026, asOf: '2026-09-30', blocks })
    const known = data.blocks.find(({ block }) => block === 'upper')!
    expect(data.charts.crop.bars).toEqual([
      { name: 'Upper', value: known.estimate!.value, low: known.low!.value, high: known.high!.value },
    ])
  })
})

describe('what past estimates teach', () => {
  const past = (year: number, kg: number) => ({
    [`seasons/${year}/crop.yaml`]: counted('all', TOP).replaceAll('2026', String(year)),
    [`seasons/${year}/picks.yaml`]: `- { date: ${year}-09-20, block: upper, weight: ${kg} kg }\n`,
  })
  const now = { [`${S}/crop.yaml`]: counted('all', TOP) }

  test('shown always, applied where asked, with its own uncertainty', () => {
    const files = { ...now, ...past(2024, 2160), ...past(2025, 1800), ...past(2023, 1920) }
    const { block: plain } = upper(files)
    const { block: taught, total } = upper(files, { learned: true })
    expect(plain.estimate!.value).toBeCloseTo(2400, 6)
    expect(plain.learnedApplied).toBeNull()
    const factor = Math.cbrt((2160 * 1800 * 1920) / 2400 ** 3)
    expect(plain.learned.factor).toBeCloseTo(factor, 9)
    expect(taught.learnedApplied).toEqual({ factor: plain.learned.factor, why: null })
    expect(taught.estimate!.value).toBeCloseTo(2400 * factor, 6)
    expect(total.estimate!.value).toBeCloseTo(2400 * factor, 6)
    const width = ({ low, high, estimate }: typeof plain) => (high!.value - low!.value) / estimate!.value
    expect(width(taught)).toBeGreaterThan(width(plain))
  })

  test('one season teaches nothing yet, and why is said', () => {
    const { block } = upper({ ...now, ...past(2025, 1800) }, { learned: true })
    expect(block.estimate!.value).toBeCloseTo(2400, 6)
    expect(block.learnedApplied).toMatchObject({ factor: null, why: expect.stringMatching(/one season/) })
  })
})
