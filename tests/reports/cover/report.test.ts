import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cover } from '../../../src/reports/cover/report.ts'
import { type DayOf, inputOf, weatherText } from '../weather-ledger.ts'

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
  test('25 mm wash it off and 24.9 mm do not', () => {
    const rain = (mm: number) => calm.map((day, at) => (at === 10 ? { ...day, rain: mm } : day))
    expect(coverOf(rain(24.9)).sprays).toMatchObject([{ until: '2026-06-11' }])
    expect(coverOf(rain(25)).sprays).toMatchObject([{ until: '2026-06-03', reason: 'washed off' }])
    expect(coverOf(rain(25)).days.find(({ date }) => date === '2026-06-04')!.rainSince).toBe(25)
  })
  test('a high index shortens the interval', () => {
    const warm = calm.map(() => ({ warm: 8 }))
    expect(coverOf(warm).sprays).toMatchObject([{ until: '2026-06-08', reason: 'interval' }])
  })
  test('an index that rises later ends protection from then on, not before', () => {
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
    expect(on(shares, '2026-06-02').why).toContain('may overlap')
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
  test('more rain never lengthens protection', () => {
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
