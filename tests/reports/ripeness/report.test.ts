import { describe, expect, test } from 'vitest'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { ripeness } from '../../../src/reports/ripeness/report.ts'
import { makeLedger } from '../../ledger/make.ts'

function dataOf(
  samples: string,
  files: Record<string, string> = {},
  options: Parameters<typeof ripeness>[1] = {},
) {
  const root = makeLedger({ 'seasons/2026/samples.yaml': samples, ...files })
  const ledger = openLedger(root, { seasons: 'all' })
  expect(ledger.findings.filter(({ level }) => level === 'error')).toEqual([])
  const input = { ledger, season: 2026, asOf: '2026-09-14', blocks: [ledger.blocks.get('upper')!] }
  return ripeness(input, options).data
}

describe('ripeness', () => {
  test('a pooled reading has no interval and says why; five lots say whether they are enough', () => {
    const { samples } = dataOf(
      '- { date: 2026-09-05, block: upper, berries: 100, brix: 18.5 }\n- { date: 2026-09-12, block: upper, brix: [19.2, 20.1, 19.6, 20.4, 19.7] }\n',
    )
    expect(samples[0]).toMatchObject({
      brixLow: null,
      enough: null,
      needed: null,
      why: expect.stringMatching(/no spread/),
    })
    // half-width 0.58, wanted 0.5; (t x 0.464 / 0.5)² is first met by 6 readings
    expect(samples[1]).toMatchObject({ enough: false, needed: 1, why: null })
  })

  test('dilution by rain is told from loss: 1.40 g at 21.0, then 1.52 g at 19.6, worked out by hand', () => {
    const { samples } = dataOf(
      '- { date: 2026-09-05, block: upper, brix: 21, berry_weight: 1.40 g }\n- { date: 2026-09-12, block: upper, brix: 19.6, berry_weight: 1.52 g }\n',
    )
    expect(samples[1]!.sugarPerBerry).toBeCloseTo(297.9, 1)
    expect(samples[1]!.loading!.state).toBe('dilution')
  })

  test('1.40 g at 19.0, then 1.38 g at 20.4 a week later is the plateau by the 3 mg rule, although Brix rose', () => {
    const { samples } = dataOf(
      '- { date: 2026-09-05, block: upper, brix: 19, berry_weight: 1.40 g }\n- { date: 2026-09-12, block: upper, brix: 20.4, berry_weight: 1.38 g }\n',
    )
    expect(samples[1]!.loading).toMatchObject({ rate: expect.closeTo(2.2, 1), state: 'plateau' })
  })

  test('no rate from two days; from three, with its interval around it', () => {
    const row = (day: string, brix: number) => `- { date: 2026-${day}, block: upper, brix: ${brix} }\n`
    expect(dataOf(row('08-29', 17) + row('09-05', 18.2)).trends[0]).toMatchObject({ perDay: null, n: 2 })
    const trend = dataOf(row('08-29', 17) + row('09-05', 18.3) + row('09-12', 19.4)).trends[0]!
    expect(trend.perDay).toBeCloseTo(2.4 / 14, 9)
    expect(trend.perDayLow! < trend.perDay! && trend.perDay! < trend.perDayHigh!).toBe(true)
  })

  test('the chart draws the rate over the days it rests on, within its interval, and the window where asked', () => {
    const row = (day: string, brix: number) => `- { date: 2026-${day}, block: upper, brix: ${brix} }\n`
    const text = row('08-22', 15.4) + row('08-29', 17) + row('09-05', 18.3) + row('09-12', 19.4)
    const data = dataOf(text)
    const { points, trend, target } = data.charts[0]!.chart!.panels[0]!
    expect(points.map(({ value }) => value)).toEqual([15.4, 17, 18.3, 19.4])
    expect(target).toMatchObject({ low: 20, high: 22 })
    expect([trend!.points[0]!.date, trend!.points.at(-1)!.date]).toEqual(['2026-08-22', '2026-09-12'])
    for (const { value, low, high } of trend!.points) expect(low! < value && value < high!).toBe(true)
    const [start, middle] = [trend!.points[0]!, trend!.points[4]!]
    expect(start.high! - start.low!).toBeGreaterThan(middle.high! - middle.low!)
    expect(data.charts[0]!.chart!.window).toBeUndefined()
    expect(dataOf(text, {}, { windows: true }).charts[0]!.chart!.window).toMatchObject({
      name: expect.stringMatching(/target reached/),
    })
  })

  test('the press is held against the last sample of the week before', () => {
    const past = {
      'seasons/2025/samples.yaml': '- { date: 2025-09-18, block: upper, brix: 20.9 }\n',
      'seasons/2025/picks.yaml': '- { date: 2025-09-20, block: upper, weight: 3000 kg, brix: 20.2 }\n',
    }
    const data = dataOf('- { date: 2026-09-12, block: upper, brix: 20 }\n', past)
    expect(data.pressBias).toMatchObject({ mean: expect.closeTo(-0.7, 9), low: null })
    expect(data.samples[0]!.brixAtPress).toBeCloseTo(19.3, 9)
  })

  test('fermenting juice is refused with the reason', () => {
    const { samples } = dataOf('- { date: 2026-09-12, block: upper, brix: 12, fermenting: true }\n')
    expect(samples[0]).toMatchObject({
      brix: null,
      sugarPerLitre: null,
      why: expect.stringMatching(/ferment/),
    })
  })
})
