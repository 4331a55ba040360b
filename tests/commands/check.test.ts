import { cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { run, runJson } from './run.ts'

const SPRAY =
  'date: 2026-06-14\nblocks: [upper]\nwater: 300 L/ha\nproducts:\n  - { product: sulphur, rate: 3, for: powdery }\n'

describe('check', () => {
  test('a valid ledger: one line, exit 0', () => {
    const { status, stdout, stderr } = run(['check', '--ledger', makeLedger(), '--as-of', '2026-09-01'])
    expect([status, stderr]).toEqual([0, ''])
    expect(stdout).toBe('0 errors, 0 warnings in 7 files.\n')
  })

  test('a finding: place, name, the line with a marker under the fault, what is wrong, what to do', () => {
    const root = makeLedger({ 'seasons/2026/sprays/a.yaml': SPRAY })
    const { status, stdout } = run(['check', '--ledger', root, '--as-of', '2026-09-01'])
    expect(status).toBe(1)
    const lines = stdout.split('\n')
    expect(lines[0]).toBe('seasons/2026/sprays/a.yaml:5:31  error  needs-unit')
    expect(lines[1]).toBe('    5 |   - { product: sulphur, rate: 3, for: powdery }')
    expect(lines[2]).toBe('      |                               ^')
    expect(stdout).toContain('kg/ha, L/ha')
    expect(lines.every((line) => line.length <= 80)).toBe(true)
  })

  test('as of an earlier day, what is dated later is said once and counted', () => {
    const days = ['06-14', '06-24', '07-04', '07-14']
    const later = days.map((day) => [
      `seasons/2026/work/${day}.yaml`,
      `date: 2026-${day}\nblock: upper\njob: mowing\n`,
    ])
    const root = makeLedger(Object.fromEntries(later))
    const told = (asOf: string) => run(['check', '--ledger', root, '--as-of', asOf]).stdout
    expect(told('2026-06-20').match(/in the future on/g)).toHaveLength(3)
    expect(told('2026-06-01').match(/future-date$/gm)).toHaveLength(1)
    expect(told('2026-06-01')).toContain('4 dates are after Mon 1 Jun')
  })

  test('the JSON contract', () => {
    const { status, json } = runJson([
      'check',
      '--ledger',
      makeLedger({ 'seasons/2026/sprays/a.yaml': SPRAY }),
      '--as-of',
      '2026-09-01',
    ])
    expect(status).toBe(1)
    expect(json).toMatchObject({ rowbook: 1, report: 'check', asOf: '2026-09-01', cautions: [] })
    expect(json.data).toMatchObject({ errors: 1, warnings: 0, hints: 0, files: 8 })
    expect(Object.keys(json.data.records)).toEqual([
      'blocks',
      'varieties',
      'products',
      'sprayers',
      'sprays',
      'scouting',
      'samples',
      'stages',
      'crop',
      'picks',
      'work',
      'weather',
      'weatherRows',
    ])
    expect(Object.keys(json.findings[0]!)).toEqual([
      'name',
      'level',
      'message',
      'file',
      'line',
      'column',
      'help',
    ])
  })

  test('the same bytes in every time zone and locale', () => {
    const root = makeLedger({ 'seasons/2026/sprays/a.yaml': SPRAY })
    const answers = ['UTC', 'Pacific/Kiritimati', 'America/St_Johns'].map(
      (zone) =>
        run(['check', '--ledger', root, '--as-of', '2026-09-01'], { env: { TZ: zone, LANG: 'tr_TR.UTF-8' } })
          .stdout,
    )
    expect(new Set(answers).size).toBe(1)
  })
})

describe('usage errors: exit 2, on stderr, with what to type', () => {
  test.each<[string[], string]>([
    [['chek'], 'check'],
    [['check', '--ledgr', 'x'], '--ledger'],
    [['check', '--as-of', '14-june-soon'], 'year-month-day'],
    [['check', '--units', 'furlong'], 'imperial'],
    [['check', '--season', 'two'], 'digits'],
    [['check', '--ledger', '/dev/null/nowhere'], 'path'],
  ])('%j', (args, help) => {
    const { status, stdout, stderr } = run(args)
    expect([status, stdout]).toEqual([2, ''])
    expect(stderr).toContain(help)
    expect(stderr).not.toMatch(/\n\s+at /)
  })

  test('help goes to stdout and opens with examples', () => {
    const { status, stdout } = run(['check', '--help'])
    expect(status).toBe(0)
    expect(stdout.startsWith('Examples:\n  rowbook check')).toBe(true)
  })
})

describe('start', () => {
  test('makes a valid ledger in both hemispheres, and never overwrites', () => {
    const folder = mkdtempSync(join(tmpdir(), 'rowbook-start-'))
    for (const [name, latitude] of [
      ['north', '51.2'],
      ['south', '-41.5'],
    ] as const) {
      const root = join(folder, name)
      expect(run(['start', root, '--example', '--latitude', latitude, '--as-of', '2026-11-25']).status).toBe(
        0,
      )
      const fresh = runJson(['check', '--ledger', root, '--as-of', '2026-11-25'])
      expect([fresh.status, fresh.json.data.errors, fresh.json.data.warnings]).toEqual([0, 0, 0])
      expect(Object.values(fresh.json.data.records).every((count) => count === 0)).toBe(true)
      const { json: due } = runJson(['today', '--ledger', root, '--as-of', '2026-11-25'])
      expect(due.data.items.map((item: { next: string }) => item.next)).toEqual(['rowbook note block'])
      // Copied into place the examples are sound, one of each.
      cpSync(join(root, 'examples'), root, { recursive: true })
      const { status, json } = runJson(['check', '--ledger', root, '--as-of', '2026-11-25'])
      expect([status, json.data.errors, json.data.warnings]).toEqual([0, 0, 0])
      const { weatherRows, ...records } = json.data.records
      expect(Object.values(records).every((count) => count === 1)).toBe(true)
      expect(readFileSync(join(root, 'products/placeholder-sulphur.yaml'), 'utf8')).toContain('PLACEHOLDER')
      writeFileSync(join(root, 'vineyard.yaml'), 'mine\n')
      expect(run(['start', root]).status).toBe(2)
      expect(readFileSync(join(root, 'vineyard.yaml'), 'utf8')).toBe('mine\n')
    }
  })
})

test('a report stops at broken records', () => {
  const root = makeLedger({ 'seasons/2026/sprays/a.yaml': SPRAY })
  const copy = join(mkdtempSync(join(tmpdir(), 'rowbook-')), 'copy')
  cpSync(root, copy, { recursive: true })
  const { status, stdout, stderr } = run(['totals', '--ledger', copy, '--as-of', '2026-09-01'])
  expect([status, stdout]).toEqual([1, ''])
  expect(stderr).toContain('needs-unit')
})

test('--sources names where each figure of a report comes from', () => {
  const { stdout } = run(['sugar', '--brix', '21', '--sources'])
  expect(stdout).toContain('\nSources\n')
  expect(stdout).toContain('OIV-MA-AS2-02')
  expect(stdout.split('\n').every((line) => line.length <= 80)).toBe(true)
})
