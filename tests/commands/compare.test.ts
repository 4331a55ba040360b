import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { ledgerCopy, run, runJson } from './run.ts'

const BOOK = ['--ledger', 'examples/far-quillet', '--as-of', '2026-09-14']

describe('compare', () => {
  const { status, json } = runJson(['compare', '2026', '2025', ...BOOK])
  type Figure = { figure: string; block: string | null; weight: number | null; values: { value: number }[] }
  const figures = json.data.figures as Figure[]
  const names = new Set(figures.map(({ figure }) => figure))

  test('holds growth, heat, rain, sprays, actives, copper, disease and sugar of every season, oldest first', () => {
    expect([status, json.data.seasons]).toEqual([0, [2025, 2026]])
    for (const name of [
      'full flowering',
      'veraison',
      'heat sum',
      'rain',
      'sprays',
      'active sulphur',
      'copper',
      'treatment frequency',
      'downy on leaves, from veraison',
      'sugar on the same day',
      'sugar rate',
    ])
      expect(names).toContain(name)
    expect([...names].some((name) => /^sugar at \d+ °C-days$/.test(name))).toBe(true)
    for (const { values } of figures) expect(values).toHaveLength(2)
  })

  test('copper is that of the season’s own report', () => {
    const own = runJson(['totals', ...BOOK]).json.data
    for (const { block, copper } of own.blocks) {
      const one = figures.find((each) => each.figure === 'copper' && each.block === block)!
      expect(one.values[1]!.value).toBeCloseTo(copper.season.value, 9)
    }
  })

  test('seasons that are over: picks, yield, estimate against actual, rates', () => {
    const { json: past } = runJson(['compare', '2024', '2025', ...BOOK])
    const yields = past.data.figures.filter(({ figure }: Figure) => figure === 'yield')
    expect(yields.length).toBeGreaterThan(1)
    for (const name of ['first pick', 'picked of the estimate', 'picking rate', 'sugar at the press'])
      expect(past.data.figures.some(({ figure }: Figure) => figure === name)).toBe(true)
  })

  test('says what changed most in a sentence, on 80 columns; --block leaves the others out', () => {
    const { stdout } = run(['compare', '2025', '2026', ...BOOK, '--block', 'kiln-bank'])
    expect(stdout).toMatch(/^What changed most from 2025 to 2026: /)
    expect(stdout).not.toContain('Top Terrace')
    expect(stdout).toMatch(/ 4 % +21 % +\+17 points/)
    expect(stdout).not.toMatch(/[+-]\d+ %|[+-]1 points/)
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80)
    const weights = figures.map(({ weight }) => weight ?? -1)
    expect(weights).toEqual(weights.toSorted((a, b) => b - a))
  })

  test('a season that has a folder and no record is unknown, and says so', () => {
    const root = ledgerCopy()
    mkdirSync(join(root, 'seasons/2023'))
    const { stdout, status: done } = run([
      'compare',
      '2023',
      '2026',
      '--ledger',
      root,
      '--as-of',
      '2026-09-14',
    ])
    expect([done, stdout.includes('Nothing that can be compared changed from 2023 to 2026')]).toEqual([
      0,
      true,
    ])
    expect(stdout.replaceAll('\n', ' ')).toContain('2023: nothing recorded')
    mkdirSync(join(root, 'seasons/2022'))
    const none = run(['compare', '2022', '2023', '--ledger', root, '--as-of', '2026-09-14']).stdout
    expect(none).toMatch(/Nothing .*2022/)
    expect(none).not.toMatch(/\b0 kg\/ha/)
  })

  test.each([
    [['2026'], 'two or more'],
    [['2026', '2026'], 'two or more'],
    [[], 'SEASON'],
    [['2019', '2026'], 'no season 2019'],
    [['2025', 'last'], 'is no season'],
    [['2025', '2026', '--block', 'nowhere'], 'no block `nowhere`'],
  ])('%j is told with a way out', (args, said) => {
    const { status: wrong, stdout, stderr } = run(['compare', ...args, ...BOOK])
    expect([wrong, stdout]).toEqual([2, ''])
    expect(stderr).toContain(said)
  })
})
