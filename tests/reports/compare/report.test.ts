import { describe, expect, test } from 'vitest'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { compare } from '../../../src/reports/compare/report.ts'
import { atCommonPlace } from '../../../src/reports/compare/sugar.ts'
import { spray } from '../../ledger/git-book.ts'
import { makeLedger } from '../../ledger/make.ts'

const season = (year: number, { veraison, brix, leaves, copper, kilograms }: Record<string, number>) => ({
  [`seasons/${year}/stages.yaml`]: `- { date: ${year}-06-12, block: upper, stage: 65 }\n- { date: ${year}-08-${veraison}, block: upper, stage: 81 }\n`,
  [`seasons/${year}/samples.yaml`]: `- { date: ${year}-09-01, block: upper, brix: ${brix} }\n- { date: ${year}-09-11, block: upper, brix: ${brix! + 3} }\n`,
  [`seasons/${year}/scouting.yaml`]: `- { date: ${year}-08-25, block: upper, looked_at: { leaves: 50 }, found: { downy: { leaves: ${leaves} } } }\n`,
  [`seasons/${year}/sprays.yaml`]: `- ${spray(`${year}-06-14`, 'upper', 'copper', `${copper} kg/ha`).trimEnd().replaceAll('\n', '\n  ')}\n`,
  [`seasons/${year}/picks.yaml`]: `- { date: ${year}-09-28, block: upper, weight: ${kilograms} kg, people: 4, hours: 5, brix: 21 }\n`,
})

const FILES = {
  ...season(2025, { veraison: 10, brix: 16, leaves: 1, copper: 1, kilograms: 2000 }),
  ...season(2026, { veraison: 17, brix: 14, leaves: 11, copper: 2, kilograms: 1600 }),
}

function ask(asOf: string, more: Record<string, string> = {}, seasons = [2025, 2026]) {
  const ledger = openLedger(makeLedger({ ...FILES, ...more }), { seasons: 'all' })
  expect(ledger.findings).toEqual([])
  return compare({ ledger, season: 2026, asOf, blocks: [...ledger.blocks.values()] }, seasons).data
}
const figure = (data: ReturnType<typeof ask>, name: string, block: string | null = 'upper') =>
  data.figures.find((one) => one.figure === name && one.block === block)

describe('two seasons side by side', () => {
  const data = ask('2026-11-20')

  test.each<[string, string | null, number[], number]>([
    ['veraison', 'upper', [282, 289], 7],
    ['full flowering', 'upper', [223, 223], 0],
    ['sprays', 'upper', [1, 1], 0],
    ['copper', 'upper', [0.35, 0.7], 0.35],
    ['downy on leaves, from veraison', 'upper', [2, 22], 20],
    ['yield', 'upper', [5000, 4000], -1000],
    ['picking rate', 'upper', [100, 80], -20],
    ['sugar on the same day', 'upper', [19, 17], -2],
    // 1 and 2 kg/ha of 35 % copper on 0.4 of 0.5 ha
    ['copper', null, [0.28, 0.56], 0.28],
  ])('%s of %s', (name, block, values, change) => {
    const one = figure(data, name, block)!
    for (const [index, { value }] of one.values.entries()) expect(value).toBeCloseTo(values[index]!, 9)
    expect(one.change).toBeCloseTo(change, 9)
  })

  test('what changed most comes first, and what cannot be compared last', () => {
    const weights = data.figures.map(({ weight }) => weight ?? -1)
    expect(weights).toEqual(weights.toSorted((a, b) => b - a))
    expect(data.figures[0]!.figure).toBe('downy on leaves, from veraison')
  })

  test('without weather there is no heat, and it says why', () => {
    expect(figure(data, 'heat sum', null)).toBeUndefined()
    expect(figure(data, 'picked of the estimate')).toBeUndefined()
  })
})

describe('heat and rain side by side', () => {
  const csv = (year: number, skip: readonly string[]) =>
    `date,min_c,max_c,rain_mm\n${Array.from({ length: 183 }, (_, index) =>
      new Date(Date.UTC(year, 3, 1 + index)).toISOString().slice(0, 10),
    )
      .filter((date) => !skip.includes(date))
      .map((date) => `${date},10,${year === 2025 ? 20 : 22},1\n`)
      .join('')}`
  const weather = (skip: readonly string[]) => ({
    'seasons/2025/weather.csv': csv(2025, skip),
    'seasons/2026/weather.csv': csv(2026, []),
  })
  const both = (data: ReturnType<typeof ask>, name: string) =>
    figure(data, name, null)!.values.map(({ value, remark, why }) => [value, remark ?? why])

  test('sums over the growing days up to the same day, and sugar where the heat was alike', () => {
    const data = ask('2026-09-20', weather([]))
    // 5 and 6 °C-days on each of 173 days from 1 April to 20 September
    expect(both(data, 'heat sum')).toEqual([[173 * 5, null], [173 * 6, null]]) // biome-ignore format: pairs
    expect(both(data, 'rain')).toEqual([[173, null], [173, null]]) // biome-ignore format: pairs
    // 11 September 2025 is day 164 with 820 °C-days; 2026 reached that within its samples never: 924 on its first.
    expect(data.figures.some(({ figure: name }) => name.startsWith('sugar at'))).toBe(false)
    const alike = ask('2026-09-20', {
      ...weather([]),
      'seasons/2026/weather.csv': csv(2026, []).replaceAll(',22,', ',20,'),
    })
    const sugar = alike.figures.find(({ figure: name }) => name === 'sugar at 820 °C-days')!
    expect(sugar.values.map(({ value }) => value)).toEqual([19, 17])
  })

  test('a short outage is filled for heat and left out of rain, and both are said; a long one is unknown', () => {
    const short = ask('2026-09-20', weather(['2025-06-10']))
    expect(both(short, 'heat sum')[0]).toEqual([173 * 5, '1 of 173 days filled in'])
    expect(both(short, 'rain')[0]).toEqual([172, 'at least this much, as 1 of 173 days is missing'])
    const days = Array.from({ length: 12 }, (_, index) => `2025-06-${10 + index}`)
    const long = ask('2026-09-20', weather(days))
    expect(both(long, 'heat sum')[0]).toEqual([null, '12 of 173 days are unknown'])
    expect(both(long, 'rain')[0]).toEqual([null, 'no rain known for 12 of 173 days'])
  })
})

test('a season without a record is unknown, not nothing', () => {
  const data = ask('2026-11-20', {}, [2024, 2026])
  expect(data.figures.every(({ values }) => values[0]!.value === null)).toBe(true)
  expect(figure(data, 'copper')!.values[0]!.why).toBe('nothing recorded')
})

test('a season that is not over: all up to the same day', () => {
  const data = ask('2026-09-05')
  expect(data.upTo).toEqual([
    { season: 2025, date: '2025-09-05', whole: false },
    { season: 2026, date: '2026-09-05', whole: false },
  ])
  expect(figure(data, 'yield')).toBeUndefined()
  expect(figure(data, 'sugar on the same day')!.values.map(({ value }) => value)).toEqual([16, 14])
})

describe('a place that all seasons reach', () => {
  const course = (...points: [number, number][]) => points.map(([x, brix]) => ({ x, brix }))

  test('the latest, on the line between the samples around it', () => {
    expect(atCommonPlace([course([0, 10], [10, 20]), course([4, 12], [6, 14])])).toEqual({
      x: 6,
      brix: [16, 14],
    })
  })

  test('none where one season begins after the other ends, or has no sample', () => {
    expect(atCommonPlace([course([0, 10], [5, 12]), course([6, 12], [9, 15])])).toBeNull()
    expect(atCommonPlace([course([0, 10]), []])).toBeNull()
  })
})
