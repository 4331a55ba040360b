import { describe, expect, test } from 'vitest'
import { applicationsOf } from '../../../src/facts/spraying/applications.ts'
import { copperOf, copperOverYears, copperSum } from '../../../src/facts/spraying/copper.ts'
import { type Files, label } from '../../rules/limits/both-sides.ts'
import { applied, bookOf, sprayed } from '../book.ts'

const copper = (rate: string) => `product: copper, rate: ${rate}`
const UNKNOWN = { 'products/extra.yaml': label({ actives: '{ name: copper }' }) }

describe('copper of applications', () => {
  test('metal on the block, from all products with copper; others add none', () => {
    expect(copperOf(applied([copper('2 kg/ha')])[0]!)).toBeCloseTo(0.7)
    expect(copperOf(applied(['product: sulphur, rate: 2 kg/ha'])[0]!)).toBe(0)
    const two = label({ actives: '{ name: copper, content: 100 g/kg }, { name: Bordeaux, content: 20 % }' })
    expect(
      copperOf(
        applied(['product: extra, rate: 2 kg/ha'], undefined, undefined, { 'products/extra.yaml': two })[0]!,
      ),
    ).toBeCloseTo(0.6)
  })

  test('spraying a quarter of its rows gives the block a quarter', () => {
    expect(copperOf(applied([copper('2 kg/ha')], 'rows: 1-5')[0]!)).toBeCloseTo(0.175)
  })

  test('unknown where the content or the rows are', () => {
    expect(copperOf(applied(['product: extra, rate: 2 kg/ha'], '', 'upper', UNKNOWN)[0]!)).toBeNull()
    expect(copperOf(applied([copper('2 kg/ha')], 'rows: 1-5', 'wide')[0]!)).toBeNull()
    expect(copperOf(applied(['product: sulphur, rate: 2 kg/ha'], 'rows: 1-5', 'wide')[0]!)).toBe(0)
  })

  test('a sum is unknown where one of its parts is', () => {
    const known = applied([copper('2 kg/ha'), copper('1 kg/ha')])
    expect(copperSum(known)).toBeCloseTo(1.05)
    expect(copperSum([])).toBe(0)
    expect(
      copperSum([...known, ...applied(['product: extra, rate: 2 kg/ha'], '', 'upper', UNKNOWN)]),
    ).toBeNull()
  })
})

describe('years on record', () => {
  const LIMIT = 'limits: { copper: { rolling: 28 kg/ha, years: 7 } }\n'
  const NORTH = 'name: N\nlatitude: 51.5\ntimezone: Europe/Berlin\n'
  const years = (files: Files, asOf: string, site = NORTH) => {
    const ledger = bookOf('', { 'seasons/2026/sprays.yaml': null, 'vineyard.yaml': site + LIMIT, ...files })
    return copperOverYears(ledger, [], asOf)!.known
  }
  const sprays = (...seasons: number[]): Files =>
    Object.fromEntries(
      seasons.map((year) => [`seasons/${year}/sprays.yaml`, sprayed(`${year}-05-10`, [copper('1 kg/ha')])]),
    )
  const empty = (year: number) => ({
    [`seasons/${year}/stages.yaml`]: `- { date: ${year}-06-01, block: upper, stage: 65 }\n`,
  })

  test('the years of seasons with a spray, and the year of the report', () => {
    expect(years(sprays(2022, 2023, 2025), '2026-06-01')).toEqual([2022, 2023, 2025, 2026])
    expect(years({ ...sprays(2023, 2025), ...empty(2024) }, '2026-06-01')).toEqual([2023, 2025, 2026])
    expect(years(sprays(2023, 2024), '2024-06-01')).toEqual([2023, 2024])
    expect(years({}, '2026-06-01')).toEqual([2026])
  })

  // In the south a season begins in June: a calendar year is known if both its seasons are.
  test('in the south a year needs both seasons that fall in it', () => {
    const south = 'name: S\nlatitude: -35\ntimezone: Australia/Sydney\n'
    expect(years(sprays(2023, 2024, 2025), '2026-04-01', south)).toEqual([2023, 2024, 2026])
    expect(years(sprays(2023, 2025), '2026-04-01', south)).toEqual([2026])
  })
})

describe('copper over the years of a limit', () => {
  const site = (limit: string) => ({
    'vineyard.yaml': `name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nlimits: { copper: { ${limit} } }\n`,
  })
  const over = (limit: string, asOf = '2026-10-20', files: Files = {}) => {
    const ledger = bookOf(
      sprayed('2026-05-10', [copper('2 kg/ha')]) + sprayed('2026-07-10', [copper('2 kg/ha')], 'rows: 1-10'),
      {
        ...site(limit),
        'seasons/2025/sprays.yaml': sprayed('2025-05-10', [copper('4 kg/ha')]),
        'seasons/2024/sprays.yaml': sprayed('2024-05-10', ['product: sulphur, rate: 4 kg/ha']),
        ...files,
      },
    )
    return copperOverYears(ledger, applicationsOf(ledger), asOf)
  }

  test('the sum of the known years against the limit, a year without copper among them', () => {
    // 0.7 and 0.35 in 2026, 1.4 in 2025, none in 2024; nothing is recorded of 2023.
    const window = over('rolling: 2 kg/ha, years: 4')!
    expect(window).toMatchObject({ limit: 2, years: 4, from: 2023, to: 2026, unknownDose: false })
    expect([window.known, window.unknown]).toEqual([[2024, 2025, 2026], [2023]])
    expect(window.sum).toBeCloseTo(2.45)
    expect(window.over).toBeCloseTo(0.45)
  })

  test('up to and including the day of the report', () => {
    expect(over('rolling: 28 kg/ha, years: 7', '2026-07-09')!.sum).toBeCloseTo(2.1)
    expect(over('rolling: 28 kg/ha, years: 7', '2026-07-10')!.sum).toBeCloseTo(2.45)
  })

  test('in fixed blocks of years, where the law counts so', () => {
    expect(over('rolling: 28 kg/ha, years: 7, from: 2026')).toMatchObject({ from: 2026, known: [2026] })
    expect(over('rolling: 28 kg/ha, years: 7')).toMatchObject({ from: 2020 })
  })

  test('an unknown dose is reported', () => {
    const files = {
      ...UNKNOWN,
      'seasons/2023/sprays.yaml': sprayed('2023-05-10', ['product: extra, rate: 2 kg/ha']),
    }
    expect(over('rolling: 28 kg/ha, years: 7', '2026-10-20', files)!.unknownDose).toBe(true)
  })

  test.each(['per_season: 4 kg/ha', 'rolling: 28 kg/ha', 'rolling: 0 kg/ha, years: 7'])(
    'none with %s',
    (limit) => expect(over(limit)).toBeNull(),
  )
  test('nothing where the vineyard sets no limit', () => {
    const ledger = bookOf('')
    expect(copperOverYears(ledger, [], '2026-10-20')).toBeNull()
  })
})
