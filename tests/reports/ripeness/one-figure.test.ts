import { expect, test } from 'vitest'
import { namesOf } from '../../../src/facts/names.ts'
import { sugarGate } from '../../../src/facts/picking/sugar.ts'
import { pressBias } from '../../../src/facts/ripeness/press-bias.ts'
import { windowOf } from '../../../src/facts/window/block-window.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { PLAIN, type Style } from '../../../src/render/style.ts'
import { sugarCourse } from '../../../src/reports/compare/sugar.ts'
import { ready } from '../../../src/reports/ready/report.ts'
import { ripeness } from '../../../src/reports/ripeness/report.ts'
import { renderRipeness } from '../../../src/reports/ripeness/terminal.ts'
import { sheet } from '../../../src/reports/sheet/report.ts'
import { window } from '../../../src/reports/window/report.ts'
import { renderWindow } from '../../../src/reports/window/terminal.ts'
import { makeLedger } from '../../ledger/make.ts'

const STYLE: Style = { columns: 300, units: 'metric', paint: PLAIN }
const LAST = '2026-09-12'

/** The records as they stand on a day, with these samples of `upper` on the last sampling day. */
function inputOf(samples: readonly string[], more: Record<string, string> = {}) {
  const rows = ['{ date: 2026-09-05, block: upper, brix: 18, ta: 9 g/L, ph: 3 }'].concat(
    samples.map((fields) => `{ date: ${LAST}, block: upper, ${fields} }`),
  )
  const files = { 'seasons/2026/samples.yaml': rows.map((row) => `- ${row}\n`).join(''), ...more }
  const ledger = openLedger(makeLedger(files), { seasons: 'all' })
  expect(ledger.findings.filter(({ level }) => level === 'error')).toEqual([])
  return { ledger, season: 2026, asOf: '2026-09-13', blocks: [ledger.blocks.get('upper')!] }
}
type Input = ReturnType<typeof inputOf>

const TWO = [
  'berries: 100, brix: 20.4, ta: 8.2 g/L, ph: 3.16',
  'berries: 50, brix: 18.9, ta: 9.7 g/L, ph: 3.04',
]
const gateOf = ({ ledger, season, asOf, blocks: [block] }: Input) =>
  sugarGate({ ledger, season, asOf, block: block! }, null)

test('two samples of a day give one figure, 19.9 Brix, in every report, whichever was written first', () => {
  const press = {
    'seasons/2026/picks.yaml': `- { date: ${LAST}, block: upper, weight: 90 kg, brix: 19.4, rest: 50 % }\n`,
  }
  for (const samples of [TWO, TWO.toReversed()]) {
    const input = inputOf(samples, press)
    const { ledger, blocks } = input
    const [ta, ph] = ['acid 8.7 g/L', 'pH 3.12']
    const gates = ready(input).data.blocks[0]!.gates
    const detail = (name: string) => gates.find(({ gate }) => gate === name)!.detail
    expect(detail('sugar')).toContain('19.9 Brix on Sat 12 Sep (mean of 2 samples by their berries) of 20-22')
    expect(detail('acid')).toContain(`${ta} on Sat 12 Sep (mean of 2 samples by their berries), within 7-9`)
    expect(detail('acid')).toContain(`${ph} on Sat 12 Sep (mean of 2 samples by their berries), within 3-3.3`)
    expect(windowOf(blocks[0]!, input).lastSample).toMatchObject({
      date: LAST,
      brix: expect.closeTo(19.9, 9),
      of: 2,
      aside: [],
    })
    expect(renderWindow(window(input), STYLE, namesOf(ledger))).toContain(
      'last sample 19.9 Brix on 12 Sep (mean of 2',
    )
    const trend = ripeness(input).data.trends[0]!
    expect(trend.lastDay).toMatchObject({ date: LAST, brix: expect.closeTo(19.9, 9), of: 2 })
    expect([trend.n, trend.ta.n, trend.ph.n]).toEqual([2, 2, 2])
    expect(renderRipeness(ripeness(input), { ...namesOf(ledger), asPressed: false }, STYLE)).toMatch(
      /^Upper: 19\.9 Brix on Sat 12 Sep \(mean of 2/,
    )
    expect(pressBias(ledger, input.asOf).mean).toBeCloseTo(19.4 - 19.9, 9)
    const course = sugarCourse(input, {
      block: 'upper',
      season: 2026,
      heatUpTo: new Map([[LAST, 900]]),
      first: '2026-03-01',
    })
    expect(course.byHeat).toEqual([{ x: 900, brix: expect.closeTo(19.9, 9) }])
    const { last } = sheet(input, { kind: 'sampling', seed: 'one' }).data.blocks[0]!
    expect(last).toEqual(['Sat 12 Sep: 19.9 Brix, pH 3.12, TA 8.7 g/L'])
  }
})

test('readings by another instrument are left out of every report, and said with what they read', () => {
  const input = inputOf(['berries: 100, brix: 20.4', 'berries: 100, brix: 18.9, instrument: hydrometer'])
  const left = 'left out: not recorded as taken and read alike'
  expect(gateOf(input).detail).toContain(`20.4 Brix on Sat 12 Sep (18.9 ${left}) of 20-22`)
  expect(windowOf(input.blocks[0]!, input).lastSample).toMatchObject({ brix: 20.4, of: 1, aside: [18.9] })
  const alone = inputOf(['berries: 100, brix: 20.4'])
  for (const day of ['earliest', 'likely', 'latest', 'today'] as const)
    expect(windowOf(input.blocks[0]!, input)[day]).toBe(windowOf(alone.blocks[0]!, alone)[day])
})

test('samples that agree make sugar surer than one, samples that lie apart less sure, worked out by hand', () => {
  const chance = (...samples: string[]) => gateOf(inputOf(samples))
  // 0.5 over the target of 20: normal, at 0.5 / 0.57, and at 0.5 / (0.57 / √2)
  expect(chance('brix: 20.5').probability).toBeCloseTo(0.8098, 3)
  expect(chance('brix: 20.5', 'brix: 20.5').probability).toBeCloseTo(0.8926, 3)
  // 19.5 and 21.5: standard error 1, so t = 0.5 with one degree of freedom: 1/2 + arctan(0.5) / π
  const apart = chance('brix: 19.5', 'brix: 21.5')
  expect(apart.probability).toBeCloseTo(0.6476, 3)
  expect(apart.detail).toContain('by how far the 2 samples lie apart')
  expect(apart.detail).toContain('about even odds: sample again')
})

test('two samples read berry by berry are judged by all their readings', () => {
  const { detail, probability } = gateOf(
    inputOf(['of: berry, brix: [20, 21, 20.5]', 'of: berry, brix: [20.2, 20.8, 20.6]']),
  )
  expect(detail).toContain('from 6 readings')
  expect(probability).toBeGreaterThan(0.9)
})
